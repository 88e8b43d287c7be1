import { computed, signal } from '@preact/signals'
import type { Reply } from '../../desk/door.ts'
import { progress } from './farm.ts'

/** A step that takes long to keep: its name, and what stops it. */
export interface LongStep {
  readonly label: string
  readonly stop: () => void
}

/** How long a step may take before it is told of. */
const SHORT_MS = 1000

const long = signal<readonly LongStep[]>([])
let underWay = 0

/** The step that the desk is keeping now, where that takes longer than a second. */
export const longStep = computed(() => long.value[0] ?? null)

/**
 * Asks for a step, and tells of it while it takes long. Stopped before it is kept, nothing of it stays, and the fault of
 * the reply says so.
 */
export async function keepAtLength<T>(
  label: string,
  asking: (signal: AbortSignal) => Promise<Reply<T>>,
): Promise<Reply<T>> {
  const stop = new AbortController()
  const step: LongStep = { label, stop: () => stop.abort() }
  if (underWay === 0) progress.value = null
  underWay += 1
  const telling = setTimeout(() => {
    long.value = [...long.value, step]
  }, SHORT_MS)
  try {
    const reply = await asking(stop.signal)
    if (reply.ok || reply.fault.kind !== 'stopped') return reply
    return { ok: false, fault: { ...reply.fault, detail: `“${label}” was stopped: nothing of it is kept.` } }
  } finally {
    clearTimeout(telling)
    underWay -= 1
    long.value = long.value.filter((one) => one !== step)
  }
}
