import { notNegative, oneOf, optional, positive, ref, text, wholeBetween } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** The recipe of a support run. */
export const systems = kind('systems', 'systems.csv', {
  id: text(),
  name: text(),
  note: optional(text()),
  height_m: optional(positive()),
  /** Wires or strings one above another. */
  lines: optional(wholeBetween(1, 50)),
  /** Initial tension of each wire. */
  tension_n: optional(positive()),
})
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
    kind: optional(oneOf('post', 'end post', 'brace', 'wire', 'string', 'net', 'panel', 'tie', 'other')),
    /** Length that it is sold in. */
    roll_m: optional(positive()),
    diameter_mm: optional(positive()),
    /** Breaking stress: of a wire in tension, of a post in bending. */
    strength_mpa: optional(positive()),
    modulus_gpa: optional(positive()),
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
