import type { Affine } from './placement.ts'

/** The grid position of a place in the picture, in pixels from its upper-left corner. */
export const gridAt = (t: Affine, col: number, row: number): [x: number, y: number] => [
  t.xPerCol * col + t.xPerRow * row + t.x0,
  t.yPerCol * col + t.yPerRow * row + t.y0,
]

/** Signed area of a pixel in the grid's units squared; negative where north is up. Zero: the pixels have no area. */
export const pixelArea = (t: Affine): number => t.xPerCol * t.yPerRow - t.xPerRow * t.yPerCol

/** True where every number is finite and pixels have an area, so that grid positions lead back to pixels. */
export const isUsable = (t: Affine): boolean => Object.values(t).every(Number.isFinite) && pixelArea(t) !== 0

/** The place in the picture (col, row in pixels from its upper-left corner) of a grid position. Wants a usable affine. */
export const pixelAt = (t: Affine, x: number, y: number): [col: number, row: number] => {
  const area = pixelArea(t)
  const dx = x - t.x0
  const dy = y - t.y0
  return [(t.yPerRow * dx - t.xPerRow * dy) / area, (t.xPerCol * dy - t.yPerCol * dx) / area]
}

/** The same transform told for pixel CENTRES (first pixel's centre is 0, 0) turned into one told for pixel corners. */
export const fromCentres = (t: Affine): Affine => ({
  ...t,
  x0: t.x0 - (t.xPerCol + t.xPerRow) / 2,
  y0: t.y0 - (t.yPerCol + t.yPerRow) / 2,
})
