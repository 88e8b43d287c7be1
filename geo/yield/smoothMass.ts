import type { Piece } from './pieces.ts'
import { type Found, findWithin, pointGrid } from './pointGrid.ts'
import { type Masses, noMasses } from './spreadMass.ts'

/** The bell is cut off at this many standard deviations. */
const CUT_SD = 3

/** Steps of the table that the bell is read from: straight lines between them are true to 1e-8 of its height. */
const STEPS = 16384

/**
 * Smooths mass with a Gaussian bell of standard deviation `smoothM` (metres between pieces' centres). Each piece shares
 * its mass out over the pieces in reach by area × bell, its shares made to add up to 1, so mass stays whole and none
 * leaks out of the beds at their edges.
 */
export function smoothMass(pieces: readonly Piece[], masses: Masses, smoothM: number): Masses {
  const xs = Float64Array.from(pieces, (p) => p.x)
  const ys = Float64Array.from(pieces, (p) => p.y)
  const grid = pointGrid(xs, ys, CUT_SD * smoothM)
  const areas = Float64Array.from(grid.order, (k) => pieces[k]!.areaM2)
  const shared = noMasses(pieces.length)
  const found: Found = { count: 0, slots: [], squares: [] }
  const weights: number[] = []
  const bell = Float64Array.from({ length: STEPS + 2 }, (_, k) => Math.exp((-CUT_SD * CUT_SD * k) / (2 * STEPS)))
  const steps = STEPS / (CUT_SD * smoothM) ** 2
  grid.order.forEach((k, slot) => {
    const kg = masses.kg[k]!
    const counted = masses.countedKg[k]!
    const expected = masses.expectedKg[k]!
    if (kg === 0 && expected === 0) return
    findWithin(grid, grid.xs[slot]!, grid.ys[slot]!, found)
    let total = 0
    for (let s = 0; s < found.count; s += 1) {
      const step = found.squares[s]! * steps
      const below = Math.floor(step)
      const height = bell[below]! + (bell[below + 1]! - bell[below]!) * (step - below)
      const weight = areas[found.slots[s]!]! * height
      weights[s] = weight
      total += weight
    }
    for (let s = 0; s < found.count; s += 1) {
      const to = found.slots[s]!
      const share = weights[s]! / total
      shared.kg[to]! += kg * share
      shared.countedKg[to]! += counted * share
      shared.expectedKg[to]! += expected * share
    }
  })
  const smooth = noMasses(pieces.length)
  grid.order.forEach((k, slot) => {
    smooth.kg[k] = shared.kg[slot]!
    smooth.countedKg[k] = shared.countedKg[slot]!
    smooth.expectedKg[k] = shared.expectedKg[slot]!
  })
  return smooth
}
