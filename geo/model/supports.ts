import { day, flag, notNegative, optional, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A run of posts, wire, net, string or panel that holds climbing plants up. */
export const supports = kind(
  'supports',
  'supports.geojson',
  {
    id: text(),
    system: ref('systems'),
    put_up: optional(day()),
    taken_down: optional(day()),
    permanent: optional(flag()),
    height_m: optional(notNegative()),
    note: optional(text()),
  },
  { shapes: ['LineString'] },
)
export type Support = RecordOf<typeof supports>
