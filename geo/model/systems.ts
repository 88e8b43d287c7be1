import { notNegative, optional, positive, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** The recipe of a support run. */
export const systems = kind('systems', 'systems.csv', { id: text(), name: text(), note: optional(text()) })
export type System = RecordOf<typeof systems>

/** One part of a system; `rule` says how many for a run. */
export const systemParts = kind(
  'system_parts',
  'system_parts.csv',
  {
    system: ref('systems'),
    part: text(),
    rule: text(),
    unit_cost: optional(notNegative()),
    lasts_seasons: optional(positive()),
    note: optional(text()),
  },
  { hasId: false },
)
export type SystemPart = RecordOf<typeof systemParts>

/** Labour on a system, minutes for each metre of run. */
export const systemWork = kind(
  'system_work',
  'system_work.csv',
  { system: ref('systems'), work: text(), minutes_per_m: optional(notNegative()), when: optional(text()) },
  { hasId: false },
)
export type SystemWork = RecordOf<typeof systemWork>
