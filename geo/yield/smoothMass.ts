import { type Cluster, cellClusters } from './cellClusters.ts'
import type { Piece } from './pieces.ts'
import { type Masses, noMasses } from './spreadMass.ts'

/** The bell is cut off at this many standard deviations along either axis. */
const CUT_SD = 3

/** Even ground may come out uneven by so much of itself. */
const EVEN_WITHIN = 1e-4
const MOST_ROUNDS = 60

/**
 * Smooths mass with a Gaussian bell of standard deviation `smoothM` (metres between the cells' middles) so that mass
 * stays whole, none leaks out of the beds at their edges, and ground that is evenly dense stays evenly dense.
 *
 * With aᵢ the ground in a cell and kᵢⱼ the bell between two, cell i gives cell j the share aⱼkᵢⱼsⱼ/Σⱼaⱼkᵢⱼsⱼ of its
 * mass, the s being such that sᵢ·Σⱼaⱼkᵢⱼsⱼ = 1: then even ground gives as much as it gets, and by Σⱼaⱼkᵢⱼ alone the ends of
 * beds would come out three tenths too thin. The s are found by s ← √(s/K(as)) (symmetric scaling: Sinkhorn & Knopp 1967,
 * Pacific J. Math. 21:343–348; Knight, Ruiz & Uçar 2014, SIAM J. Matrix Anal. 35:931–955). The bell being one along x
 * times one along y, K is had by two passes over the grid. Beds in one cell share its mass by their ground there.
 */
export function smoothMass(pieces: readonly Piece[], masses: Masses, smoothM: number, cellM: number): Masses {
  const bell = halfBell(smoothM / cellM)
  const smooth = noMasses(pieces.length)
  for (const cluster of cellClusters(pieces, bell.length)) smoothCluster(pieces, masses, cluster, bell, smooth)
  return smooth
}

/** The bell at 0, 1, 2 … cells from its middle. */
function halfBell(sdCells: number): Float64Array {
  const reach = Math.floor(CUT_SD * sdCells)
  return Float64Array.from({ length: reach + 1 }, (_, d) => Math.exp(-(d * d) / (2 * sdCells * sdCells)))
}

function smoothCluster(
  pieces: readonly Piece[],
  masses: Masses,
  { at, firstI, firstJ, wide, high }: Cluster,
  bell: Float64Array,
  smooth: Masses,
): void {
  const size = wide * high
  const cellOf = (k: number): number => (pieces[k]!.i - firstI) * high + pieces[k]!.j - firstJ
  const ground = new Float64Array(size)
  for (const k of at) ground[cellOf(k)]! += pieces[k]!.areaM2
  const passed = new Float64Array(size)
  const between = new Float64Array(size)
  const spread = (values: Float64Array): Float64Array => twoPasses(values, wide, high, bell, between, passed)
  const [scale, reach] = evenScale(ground, spread)
  for (const which of ['kg', 'countedKg', 'expectedKg'] as const) {
    const given = new Float64Array(size)
    for (const k of at) given[cellOf(k)]! += masses[which][k]!
    for (let c = 0; c < size; c += 1) if (given[c] !== 0) given[c]! /= reach[c]!
    const got = spread(given)
    for (const k of at) {
      const c = cellOf(k)
      smooth[which][k] = pieces[k]!.areaM2 * scale[c]! * got[c]!
    }
  }
}

/** The s of every cell, and Σⱼaⱼkᵢⱼsⱼ of them as they end: with that, mass stays whole however even the ground. */
function evenScale(
  ground: Float64Array,
  spread: (values: Float64Array) => Float64Array,
): readonly [scale: Float64Array, reach: Float64Array] {
  const size = ground.length
  const scale = new Float64Array(size)
  const weighed = ground.slice()
  const first = spread(weighed)
  for (let c = 0; c < size; c += 1) if (ground[c]! > 0) scale[c] = 1 / Math.sqrt(first[c]!)
  for (let round = 0; ; round += 1) {
    for (let c = 0; c < size; c += 1) weighed[c] = ground[c]! * scale[c]!
    const reach = spread(weighed)
    let off = 0
    for (let c = 0; c < size; c += 1) {
      if (ground[c]! > 0) off = Math.max(off, Math.abs(scale[c]! * reach[c]! - 1))
    }
    if (off < EVEN_WITHIN || round === MOST_ROUNDS) return [scale, reach.slice()]
    for (let c = 0; c < size; c += 1) if (ground[c]! > 0) scale[c] = Math.sqrt(scale[c]! / reach[c]!)
  }
}

/** Values spread by the bell along x, then along y, on a grid of columns; into `out`, by way of `between`. */
function twoPasses(
  values: Float64Array,
  wide: number,
  high: number,
  bell: Float64Array,
  between: Float64Array,
  out: Float64Array,
): Float64Array {
  between.fill(0)
  out.fill(0)
  const reach = bell.length - 1
  for (let i = 0; i < wide; i += 1) {
    for (let to = Math.max(0, i - reach); to <= Math.min(wide - 1, i + reach); to += 1) {
      const weight = bell[Math.abs(to - i)]!
      const [a, b] = [i * high, to * high]
      for (let j = 0; j < high; j += 1) between[b + j]! += weight * values[a + j]!
    }
  }
  for (let d = -reach; d <= reach; d += 1) {
    const weight = bell[Math.abs(d)]!
    const [from, to] = [Math.max(0, -d), Math.min(high, high - d)]
    for (let i = 0; i < wide; i += 1) {
      const a = i * high
      for (let j = from; j < to; j += 1) out[a + j]! += weight * between[a + j + d]!
    }
  }
  return out
}
