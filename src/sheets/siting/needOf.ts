import type { SupportRun } from '../../desk/door.ts'
import type { MeasuredField } from '../state/door.ts'

/** What climbs in a field on the day and what holds it up: permanent supports, and those of one season. */
export interface Need {
  readonly id: string
  readonly name: string
  readonly climbingM: number
  readonly permanentM: number
  readonly seasonM: number
}

export function needOf(fields: readonly MeasuredField[], runs: readonly SupportRun[]): readonly Need[] {
  const standing = (field: string, permanent: boolean) =>
    runs.filter((run) => run.field === field && run.permanent === permanent).reduce((sum, run) => sum + run.length_m, 0)
  return fields.map(({ id, name, climbing_m }) => ({
    id,
    name,
    climbingM: climbing_m,
    permanentM: standing(id, true),
    seasonM: standing(id, false),
  }))
}
