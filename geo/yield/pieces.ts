import type { LaidBed } from './plantingStrips.ts'
import { ringsCentroid } from './ring.ts'
import { sliceGrid } from './sliceGrid.ts'

/**
 * One grid cell clipped to one bed; a cell that lies over two beds makes two pieces. Outlines are not kept: `sliceGrid`
 * over the bed gives them again.
 */
export type Piece = {
  /** Place of its bed in the list of beds. */
  readonly bed: number
  readonly i: number
  readonly j: number
  readonly areaM2: number
  /** Centre of mass in the plane. */
  readonly x: number
  readonly y: number
}

/** Pieces with a way to find one by bed and cell. */
export type LaidPieces = { readonly pieces: readonly Piece[]; readonly columns: readonly BedColumns[] }

/** A bed's pieces column by column: `rows[i − firstI][j − firstJ]` is the piece's place, −1 where there is none. */
type BedColumns = { readonly firstI: number; readonly columns: { readonly firstJ: number; readonly at: number[] }[] }

/** Cuts the beds by the square grid that starts at the plane's origin. */
export function layPieces(beds: readonly LaidBed[], cellM: number): LaidPieces {
  const pieces: Piece[] = []
  const columns = beds.map((bed, b) => {
    let firstI = Number.NaN
    const ofBed: { firstJ: number; at: number[] }[] = []
    sliceGrid(bed.rings, cellM, (i, j, rings, areaM2) => {
      if (ofBed.length === 0) firstI = i
      while (ofBed.length <= i - firstI) ofBed.push({ firstJ: j, at: [] })
      const column = ofBed[i - firstI]!
      while (column.at.length < j - column.firstJ) column.at.push(-1)
      column.at.push(pieces.length)
      const [x, y] = ringsCentroid(rings)
      pieces.push({ bed: b, i, j, areaM2, x, y })
    })
    return { firstI, columns: ofBed }
  })
  return { pieces, columns }
}

/** Place of the piece of a bed in a cell, or −1. */
export function pieceAt({ columns }: LaidPieces, bed: number, i: number, j: number): number {
  const ofBed = columns[bed]!
  const column = ofBed.columns[i - ofBed.firstI]
  return column?.at[j - column.firstJ] ?? -1
}
