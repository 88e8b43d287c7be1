import type { Database } from './database.ts'

/**
 * Has the statements of this transaction that are kept ready planned once for whatever values come, not for each anew
 * until that proves to be no better. For what names the few records it is about: planning takes longer than answering.
 */
export async function planOnce(tx: Database): Promise<void> {
  await tx.rows(`select set_config('plan_cache_mode', 'force_generic_plan', true)`)
}
