import type { Footprint } from './footprints.ts'
import { type LaidPieces, pieceAt } from './pieces.ts'
import { sliceGrid } from './sliceGrid.ts'

/** Mass on pieces of ground, one entry a piece, in kg. */
export type Masses = {
  /** All that was picked there. */
  readonly kg: Float64Array
  /** Of that, what counts to a crop with an expectation. */
  readonly countedKg: Float64Array
  readonly expectedKg: Float64Array
}

/** What the mass on pieces of ground rests on, one entry a piece. */
export type PickGrounds = {
  /** Number of picks that were told of ground which takes in some of the piece. */
  readonly picks: Float64Array
  /** Of the mass, what was told of a bed as a whole, in kg. */
  readonly bedKg: Float64Array
  /** Of the mass, what was told of a spot, in kg. */
  readonly spotKg: Float64Array
}

export function noMasses(count: number): Masses {
  return {
    kg: new Float64Array(count),
    countedKg: new Float64Array(count),
    expectedKg: new Float64Array(count),
  }
}

/**
 * Spreads each footprint evenly over its ground and gathers it on the pieces. Shares are areas over the sum of the
 * areas gathered, so what the pieces hold adds up to what the footprints held.
 */
export function spreadMass(laid: LaidPieces, footprints: readonly Footprint[], cellM: number): Masses & PickGrounds {
  const count = laid.pieces.length
  const masses = {
    ...noMasses(count),
    picks: new Float64Array(count),
    bedKg: new Float64Array(count),
    spotKg: new Float64Array(count),
  }
  const at: number[] = []
  const areas: number[] = []
  for (const footprint of footprints) {
    at.length = 0
    areas.length = 0
    let gathered = 0
    sliceGrid(footprint.rings, cellM, (i, j, _rings, areaM2) => {
      const piece = pieceAt(laid, footprint.bed, i, j)
      if (piece < 0) return
      at.push(piece)
      areas.push(areaM2)
      gathered += areaM2
    })
    if (gathered === 0) throw new Error(`a footprint of ${footprint.kg} kg found no ground in its bed`)
    const counted = footprint.plantingsOfCrop > 0
    at.forEach((piece, k) => {
      const share = areas[k]! / gathered
      masses.kg[piece]! += footprint.kg * share
      if (counted) masses.countedKg[piece]! += footprint.kg * share
      masses.expectedKg[piece]! += footprint.expectedKg * share
      masses.picks[piece]! += footprint.picks
      if (footprint.toldOf === 'bed') masses.bedKg[piece]! += footprint.kg * share
      if (footprint.toldOf === 'spot') masses.spotKg[piece]! += footprint.kg * share
    })
  }
  return masses
}
