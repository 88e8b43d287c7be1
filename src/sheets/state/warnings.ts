import { signal } from '@preact/signals'
import type { Changed, Warning } from '../../desk/door.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'
import { on } from './where.ts'

/** What to look at again, of what stands on the day shown and what is set out within a year of it; null until it has been asked. */
export const warnings = signal<readonly Warning[] | null>(null)

/** Asks of the whole farm, as on a day. */
export const askWarnings = latest(async (day: string) => {
  const reply = await ask('warnings', { on: day, beds: null, edits: [] })
  if (reply.ok) warnings.value = reply.value
})

/** Kinds of which a change is felt in the beds that it touches alone: those whose figures the step tells anew. */
const IN_THEIR_BEDS = ['plantings', 'picks', 'shares', 'beds', 'rows', 'supports']
const OF_NO_CONCERN = ['photos', 'observations', 'structures', 'containers', 'stock_lots', 'stock_moves', 'systems']

/** After a step: only of the beds that it touched, where no more can have changed. */
export async function warningsAfter({ records, measured }: Changed): Promise<void> {
  if (warnings.value === null) return
  const kinds = records.map(({ kind }) => kind).filter((kind) => !OF_NO_CONCERN.includes(kind))
  if (kinds.length === 0) return
  if (!kinds.every((kind) => IN_THEIR_BEDS.includes(kind))) return askWarnings(on.value)
  const beds = [...measured.beds.map(({ id }) => id), ...measured.goneBeds]
  if (beds.length === 0) return
  const reply = await ask('warnings', { on: on.value, beds, edits: [] })
  if (reply.ok && warnings.value)
    warnings.value = [...warnings.value.filter(({ bed }) => !beds.includes(bed)), ...reply.value]
}

whenFarmLeft(() => {
  warnings.value = null
})
