import type { VariogramBin } from './variogram.ts'

export type VariogramShape = 'spherical' | 'exponential' | 'gaussian'

/** γ(h) = nugget + psill·(1 − ρ(h/range)) for h > 0. */
export interface VariogramModel {
  readonly shape: VariogramShape
  readonly nugget: number
  readonly psill: number
  readonly rangeM: number
}

export const SHAPES: readonly VariogramShape[] = ['spherical', 'exponential', 'gaussian']

/** How alike places are that lie h = distance/range apart, 1 to 0 (Cressie 1993, Statistics for Spatial Data, 2.3). */
export function alike(shape: VariogramShape, h: number): number {
  if (shape === 'spherical') return h >= 1 ? 0 : 1 - 1.5 * h + 0.5 * h ** 3
  return shape === 'exponential' ? Math.exp(-h) : Math.exp(-h * h)
}

/** A model fitted to a semivariogram, and the weighted squares that are left. */
export interface FittedVariogram extends VariogramModel {
  readonly squaresLeft: number
}

const SCANNED = 120
const GOLDEN = (Math.sqrt(5) - 1) / 2

/**
 * Fits a shape by weighted least squares, each bin by pairs/distance² (gstat's usual weights; Zhang, van Eijkeren &
 * Heemink 1995). For a range, nugget and psill follow in closed form, neither below 0; so only the range is searched, from
 * a third of the nearest bin to three times the farthest (variable projection: Golub & Pereyra 1973). Null for fewer than
 * three bins, or where nothing varies.
 */
export function fitVariogram(bins: readonly VariogramBin[], shape: VariogramShape): FittedVariogram | null {
  if (bins.length < 3 || bins.every(({ gamma }) => gamma === 0)) return null
  const [least, most] = [bins[0]!.distanceM / 3, bins.at(-1)!.distanceM * 3]
  const at = (log: number): FittedVariogram => fitSills(bins, shape, Math.exp(log))
  const step = Math.log(most / least) / SCANNED
  const logs = Array.from({ length: SCANNED + 1 }, (_, k) => Math.log(least) + k * step)
  const best = logs.reduce((found, log) => (at(log).squaresLeft < at(found).squaresLeft ? log : found))
  let [low, high] = [Math.max(best - step, Math.log(least)), Math.min(best + step, Math.log(most))]
  for (let k = 0; k < 80; k += 1) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)]
    if (at(a).squaresLeft <= at(b).squaresLeft) high = b
    else low = a
  }
  return at((low + high) / 2)
}

/** The likeliest of the three shapes: least squares left. */
export function bestVariogram(bins: readonly VariogramBin[]): FittedVariogram | null {
  return SHAPES.map((shape) => fitVariogram(bins, shape)).reduce(
    (best, one) => (best === null || (one !== null && one.squaresLeft < best.squaresLeft) ? one : best),
    null,
  )
}

function fitSills(bins: readonly VariogramBin[], shape: VariogramShape, rangeM: number): FittedVariogram {
  let [w, wr, wrr, wg, wrg] = [0, 0, 0, 0, 0]
  const rises = bins.map(({ distanceM }) => 1 - alike(shape, distanceM / rangeM))
  const weights = bins.map(({ pairs, distanceM }) => pairs / distanceM ** 2)
  bins.forEach(({ gamma }, k) => {
    const [r, weight] = [rises[k]!, weights[k]!]
    w += weight
    wr += weight * r
    wrr += weight * r * r
    wg += weight * gamma
    wrg += weight * r * gamma
  })
  const det = w * wrr - wr * wr
  let psill = det > 1e-12 * w * wrr ? (w * wrg - wr * wg) / det : 0
  let nugget = (wg - psill * wr) / w
  if (psill < 0) [psill, nugget] = [0, wg / w]
  else if (nugget < 0) [psill, nugget] = [wrg / wrr, 0]
  const squaresLeft = bins.reduce(
    (sum, { gamma }, k) => sum + weights[k]! * (gamma - nugget - psill * rises[k]!) ** 2,
    0,
  )
  return { shape, nugget, psill, rangeM, squaresLeft }
}
