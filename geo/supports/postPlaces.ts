import { countPart, type RunSize, stretchesOf } from './countPart.ts'
import type { PartRule } from './partRule.ts'

/** Where posts of one part stand along a run: metres from its start, and how many together. */
export interface PostPlace {
  readonly atM: number
  readonly count: number
}

/**
 * Places of the posts that a rule counts, none more and none less: with `+ n` from end to end, with `- n` between the
 * ends only, at the ends for `per end` and `2 per run`, else in the middle of the stretch that each is for. Spacings are
 * equal. Null where the rule can't be counted, or counts in other units than pieces.
 */
export function postPlaces(rule: PartRule, size: RunSize): PostPlace[] | null {
  const count = rule.unit === 'piece' ? countPart(rule, size) : null
  if (count === null) return null
  if (count === 0) return []
  const { lengthM } = size
  if ((rule.per === 'end' || (rule.per === 'run' && rule.every === null)) && count % 2 === 0)
    return [
      { atM: 0, count: count / 2 },
      { atM: lengthM, count: count / 2 },
    ]
  const stretches = stretchesAlong(rule, size)
  if (stretches !== null) {
    const node = (n: number) => (n * lengthM) / stretches
    const nodes = Array.from({ length: stretches + 1 }, (_, n) => node(n))
    const between = nodes.slice(1, -1)
    for (const places of [nodes, between]) {
      const each = count / places.length
      if (places.length > 0 && Number.isInteger(each) && isRegular(rule, each))
        return places.map((atM) => ({ atM, count: each }))
    }
  }
  return Array.from({ length: count }, (_, n) => ({ atM: ((n + 0.5) * lengthM) / count, count: 1 }))
}

/** Stretches that the run falls into, for a rule that counts by them along its length. */
function stretchesAlong({ per, every }: PartRule, { lengthM, plants }: RunSize): number | null {
  if (every === null) return null
  if (per === 'm') return stretchesOf(lengthM, every)
  return per === 'plant' && plants !== null ? stretchesOf(plants, every) : null
}

/** Whether so many at each place is what the rule says: `2 per 2 m + 2` is two at every place, ends included. */
const isRegular = ({ amount, plus }: PartRule, each: number) => amount === each && Math.abs(plus) === amount
