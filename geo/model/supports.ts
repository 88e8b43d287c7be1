import { day, flag, notNegative, oneOf, optional, positive, ref, text } from './field.ts'
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
    /** Whether posts that stand already serve it; none where it is not told. */
    reuse_posts: optional(oneOf('same part', 'any post', 'none')),
  },
  { shapes: ['LineString'] },
)
export type Support = RecordOf<typeof supports>

/** Work that the grower timed on a run. */
export const supportWork = kind('support_work', 'support_work.csv', {
  id: text(),
  support: ref('supports'),
  on: day(),
  work: oneOf('put up', 'tend', 'take down'),
  minutes: positive(),
  note: optional(text()),
})
export type SupportWork = RecordOf<typeof supportWork>
