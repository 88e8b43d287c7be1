import type { Piece } from './pieces.ts'
import { type Found, findAhead, type PointGrid, pointGrid } from './pointGrid.ts'
import { type Masses, noMasses } from './spreadMass.ts'

/** The bell is cut off at this many standard deviations. */
const CUT_SD = 3

/** Steps of the table that the bell is read from: straight lines between them are true to 1e-8 of its height. */
const STEPS = 16384

const BELL = Float64Array.from({ length: STEPS + 2 }, (_, k) => Math.exp((-CUT_SD * CUT_SD * k) / (2 * STEPS)))

/**
 * Smooths mass with a Gaussian bell of standard deviation `smoothM` (metres between pieces' centres) so that mass stays
 * whole, none leaks out of the beds at their edges, and ground that is evenly dense stays evenly dense.
 *
 * With aᵢ the area of a piece, kᵢⱼ the bell between two and Dᵢ = Σⱼ aⱼkᵢⱼ, piece i gives piece j the share
 * aⱼkᵢⱼ·min(1/Dᵢ, 1/Dⱼ) of its mass and keeps the rest. The rule is that of Metropolis et al. 1953 (J. Chem. Phys.
 * 21:1087): aᵢ × share is the same both ways, so even ground gives as much as it gets; by Dᵢ alone the ends of beds would
 * come out three tenths too thin. Near an edge a piece keeps more of its own.
 */
export function smoothMass(pieces: readonly Piece[], masses: Masses, smoothM: number): Masses {
  const xs = Float64Array.from(pieces, (p) => p.x)
  const ys = Float64Array.from(pieces, (p) => p.y)
  const grid = pointGrid(xs, ys, CUT_SD * smoothM)
  const areas = Float64Array.from(grid.order, (k) => pieces[k]!.areaM2)
  const found: Found = { count: 0, slots: [], squares: [] }
  const share = shareOf(grid, areas, found)
  const from = [masses.kg, masses.countedKg, masses.expectedKg] as const
  const [kg, counted, expected] = from.map((list) => Float64Array.from(grid.order, (k) => list[k]!))
  const passed = noMasses(pieces.length)
  for (let a = 0; a < grid.order.length; a += 1) {
    bellsAhead(grid, a, found)
    for (let s = 0; s < found.count; s += 1) {
      const b = found.slots[s]!
      const weight = found.squares[s]! * Math.min(share[a]!, share[b]!)
      const there = areas[b]! * weight
      const back = areas[a]! * weight
      const kgPassed = kg![a]! * there - kg![b]! * back
      const countedPassed = counted![a]! * there - counted![b]! * back
      const expectedPassed = expected![a]! * there - expected![b]! * back
      passed.kg[a]! -= kgPassed
      passed.kg[b]! += kgPassed
      passed.countedKg[a]! -= countedPassed
      passed.countedKg[b]! += countedPassed
      passed.expectedKg[a]! -= expectedPassed
      passed.expectedKg[b]! += expectedPassed
    }
  }
  const smooth = noMasses(pieces.length)
  grid.order.forEach((k, slot) => {
    smooth.kg[k] = masses.kg[k]! + passed.kg[slot]!
    smooth.countedKg[k] = masses.countedKg[k]! + passed.countedKg[slot]!
    smooth.expectedKg[k] = masses.expectedKg[k]! + passed.expectedKg[slot]!
  })
  return smooth
}

/** 1/Dᵢ of every place of the grid. */
function shareOf(grid: PointGrid, areas: Float64Array, found: Found): Float64Array {
  const reach = areas.slice()
  for (let a = 0; a < grid.order.length; a += 1) {
    bellsAhead(grid, a, found)
    for (let s = 0; s < found.count; s += 1) {
      const b = found.slots[s]!
      reach[a]! += areas[b]! * found.squares[s]!
      reach[b]! += areas[a]! * found.squares[s]!
    }
  }
  return reach.map((sum) => 1 / sum)
}

/** Finds the places ahead of one and puts the bell's heights where their squared distances were. */
function bellsAhead(grid: PointGrid, slot: number, found: Found): void {
  const steps = STEPS / grid.bucketM ** 2
  findAhead(grid, slot, found)
  for (let s = 0; s < found.count; s += 1) {
    const step = found.squares[s]! * steps
    const below = Math.floor(step)
    found.squares[s] = BELL[below]! + (BELL[below + 1]! - BELL[below]!) * (step - below)
  }
}
