import { fromCentres, gridAt, isUsable } from './affine.ts'
import { lonLatCrs } from './crs.ts'
import {
  type Affine,
  isPhotoFault,
  type PhotoCrs,
  type PhotoFault,
  type PlacedPixels,
  photoFault,
} from './placement.ts'

const lineNames = ['A (x a column)', 'D (y a column)', 'B (x a row)', 'E (y a row)', 'C (x)', 'F (y)'] as const

const isNumber = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/

/**
 * Reads a world file: six lines A, D, B, E, C, F with x = A·col + B·row + C and y = D·col + E·row + F, where C and F are
 * the CENTRE of the upper-left pixel (Esri's definition). A decimal comma, any line ends, a byte order mark and blank
 * lines at the end are taken. The answer is told for pixel corners.
 */
export const parseWorldFile = (text: string): Affine | PhotoFault => {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
  while (lines.at(-1) === '') lines.pop()
  if (lines.length !== 6)
    return photoFault('world file', `A world file has six lines, one number each; this one has ${lines.length}.`)
  const values = lines.map((line) =>
    isNumber.test(line.replace(',', '.')) ? Number(line.replace(',', '.')) : Number.NaN,
  )
  const wrong = values.findIndex((value) => !Number.isFinite(value))
  if (wrong !== -1)
    return photoFault(
      'world file',
      `Line ${wrong + 1}, ${lineNames[wrong]}, is no number: "${lines[wrong]!.slice(0, 40)}".`,
    )
  const [a, d, b, e, c, f] = values as [number, number, number, number, number, number]
  const centres: Affine = { xPerCol: a, xPerRow: b, x0: c, yPerCol: d, yPerRow: e, y0: f }
  if (!isUsable(centres))
    return photoFault('world file', 'Its lines 1 to 4 give pixels without area: at least A and E must differ from 0.')
  return fromCentres(centres)
}

/** The grid that a world file's numbers can be told to be in without being told: lon/lat where all corners fit, else null. */
export const guessCrs = (affine: Affine, widthPx: number, heightPx: number): PhotoCrs | null => {
  const corners = [
    gridAt(affine, 0, 0),
    gridAt(affine, widthPx, 0),
    gridAt(affine, widthPx, heightPx),
    gridAt(affine, 0, heightPx),
  ]
  return corners.every(([x, y]) => Math.abs(x) <= 180 && Math.abs(y) <= 90) ? lonLatCrs : null
}

/**
 * A picture of a known size placed by the text of its world file. `crs` is the grid that the person chose or that the
 * `.prj` beside it names; null where nobody said, in which case lon/lat is taken if the numbers fit, with a note.
 */
export const readWorldFile = (
  text: string,
  widthPx: number,
  heightPx: number,
  crs: PhotoCrs | null,
): (PlacedPixels & { readonly notes: readonly string[] }) | PhotoFault => {
  const affine = parseWorldFile(text)
  if (isPhotoFault(affine)) return affine
  const system = crs ?? guessCrs(affine, widthPx, heightPx)
  if (system === null)
    return photoFault(
      'crs',
      `The world file's coordinates (${Math.round(affine.x0)}, ${Math.round(affine.y0)}) are in a grid that it does not name. Give its EPSG code or UTM zone, or open the .prj file that belongs to it.`,
    )
  const notes = [
    ...(crs === null ? ['The world file names no grid; its numbers were taken for longitude and latitude.'] : []),
    ...(system.caution === null ? [] : [system.caution]),
  ]
  return { widthPx, heightPx, placement: { affine, crs: system }, notes }
}
