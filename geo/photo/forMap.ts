import { drawnErrorM } from './drawnError.ts'
import type { PlacedPhoto, Raster } from './placement.ts'
import { type CorneredRaster, warpToMercator } from './warp.ts'

/** A raster ready for a MapLibre image source. */
export interface MapPhoto extends CorneredRaster {
  /** True where the raster was redrawn on Web Mercator, so that its pixels are no longer the photo's own. */
  readonly isRedrawn: boolean
}

/** Farther than this from its true place, a photo is redrawn. Half of the 0.1 m that a photo is promised to. */
export const mostDrawnOffM = 0.05

/**
 * What to give MapLibre for a placed photo: its raster as it is between its own corners where that is true enough
 * (photos up to some 300 m), else redrawn upright on Web Mercator, where what is left is under a hundredth of a pixel.
 */
export const photoForMap = (raster: Raster, photo: PlacedPhoto, maxSidePx: number): MapPhoto => {
  if (drawnErrorM(photo, photo.corners) <= mostDrawnOffM) return { raster, corners: photo.corners, isRedrawn: false }
  return { ...warpToMercator(raster, photo, maxSidePx), isRedrawn: true }
}
