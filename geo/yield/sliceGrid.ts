import { clipHalfPlane } from './clipHalfPlane.ts'
import type { Ring } from './ring.ts'
import { ringsAreaM2, ringsBounds } from './ring.ts'

/** Called for each cell that holds some of the ground: column, row, the part inside, its area. */
export type CellPart = (i: number, j: number, rings: readonly Ring[], areaM2: number) => void

/**
 * Cuts polygons along a square grid whose lines lie at whole multiples of `cellM` from the plane's origin: first into
 * columns, then each column into cells. Cell (i, j) spans `i·cellM … (i+1)·cellM` by `j·cellM … (j+1)·cellM`.
 * Cells come column by column, upwards.
 */
export function sliceGrid(rings: readonly Ring[], cellM: number, part: CellPart): void {
  const [minX, , maxX] = ringsBounds(rings)
  const lastI = Math.ceil(maxX / cellM) - 1
  let rest = rings
  for (let i = Math.floor(minX / cellM); i <= lastI; i += 1) {
    const edge = (i + 1) * cellM
    const column = i === lastI ? rest : clipHalfPlane(rest, { nx: -1, ny: 0, c: -edge })
    if (i !== lastI) rest = clipHalfPlane(rest, { nx: 1, ny: 0, c: edge })
    sliceColumn(column, i, cellM, part)
  }
}

function sliceColumn(column: readonly Ring[], i: number, cellM: number, part: CellPart): void {
  const [, minY, , maxY] = ringsBounds(column)
  const lastJ = Math.ceil(maxY / cellM) - 1
  let rest = column
  for (let j = Math.floor(minY / cellM); j <= lastJ; j += 1) {
    const edge = (j + 1) * cellM
    const cell = j === lastJ ? rest : clipHalfPlane(rest, { nx: 0, ny: -1, c: -edge })
    if (j !== lastJ) rest = clipHalfPlane(rest, { nx: 0, ny: 1, c: edge })
    const areaM2 = ringsAreaM2(cell)
    if (areaM2 > 0) part(i, j, cell, areaM2)
  }
}
