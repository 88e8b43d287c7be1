import { metresPerPixel } from '../../map/metresPerPixel.ts'

/**
 * Millimetres on paper of the pixel in which the theme tells widths and sizes. A quarter of a millimetre: type of 11
 * pixels is of 8 points.
 */
export const PAPER_PX_MM = 0.25

/** The map's zoom at which the theme is read, so that a scale on paper is drawn as the same scale on the screen. */
export const zoomOf = (scale: number, latDeg: number): number =>
  Math.log2((metresPerPixel(latDeg, 0) * 1000) / (scale * PAPER_PX_MM))
