import { seededRandom } from './seededRandom.ts'
import type { Stretch } from './stretches.ts'

/** What chance deals out anew: the index of each plot, and for each footprint the plot that it is of (−1 for none). */
export type ChanceRecords = { readonly indexes: readonly number[]; readonly plotOf: ArrayLike<number> }

const DEALS = 199
/** Of 199 deals and the one found 6 may be as cold: three in a hundred. */
const AT = 5
const SEED = 19_960_517

/**
 * The z that the coldest stretch of a farm passes three times in a hundred by chance alone: the indexes of plots, the least
 * ground told by itself, are dealt out anew 199 times, and each time Gi* of every stretch is reckoned and the least kept;
 * the sixth least of those is the threshold (max-statistic permutation, which holds the family-wise rate: Westfall & Young
 * 1993, Resampling-Based Multiple Testing). Dealing plots, not stretches, is what keeps stretches of one planting from
 * being counted as proof of each other. `near[i]` are the neighbours of stretch i among `told`.
 */
export function coldestDealt(
  told: readonly Stretch[],
  near: readonly (readonly number[])[],
  { indexes, plotOf }: ChanceRecords,
): number {
  const random = seededRandom(SEED)
  const dealt = Float64Array.from(indexes)
  const n = told.length
  const shares = told.map(({ parts, expectedKg }) => {
    const own = parts.filter(({ footprint }) => plotOf[footprint]! >= 0)
    return own.map(({ footprint, expectedKg: part }) => ({ plot: plotOf[footprint]!, share: part / expectedKg }))
  })
  const value = new Float64Array(n)
  const least = new Float64Array(DEALS)
  for (let deal = 0; deal < DEALS; deal += 1) {
    for (let k = dealt.length - 1; k > 0; k -= 1) {
      const other = Math.floor(random() * (k + 1))
      const kept = dealt[k]!
      dealt[k] = dealt[other]!
      dealt[other] = kept
    }
    shares.forEach((own, i) => {
      let sum = 0
      for (const { plot, share } of own) sum += share * dealt[plot]!
      value[i] = sum
    })
    least[deal] = leastGiStar(value, near)
  }
  return least.sort()[AT]!
}

/** The least Gi* of all places (Ord & Getis 1995, eq. 14); 0 where the values have no spread. */
function leastGiStar(values: Float64Array, near: readonly (readonly number[])[]): number {
  const n = values.length
  let mean = 0
  for (let i = 0; i < n; i += 1) mean += values[i]! / n
  let squares = 0
  for (let i = 0; i < n; i += 1) squares += (values[i]! - mean) ** 2
  const sd = Math.sqrt(squares / n)
  if (!(sd > 1e-12 * Math.abs(mean))) return 0
  let least = 0
  for (let i = 0; i < n; i += 1) {
    const others = near[i]!
    const k = others.length + 1
    if (k >= n) continue
    let over = values[i]! - mean
    for (let j = 0; j < others.length; j += 1) over += values[others[j]!]! - mean
    const z = over / (sd * Math.sqrt((k * (n - k)) / (n - 1)))
    if (z < least) least = z
  }
  return least
}
