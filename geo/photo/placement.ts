import type { LonLat } from '../plane/lonLat.ts'

/**
 * From pixels to a grid's coordinates: x = xPerCol·col + xPerRow·row + x0, y = yPerCol·col + yPerRow·row + y0.
 * `col` and `row` are counted from the picture's upper-left CORNER, so (0, 0) is the outer corner of the first pixel
 * and (0.5, 0.5) its centre.
 */
export interface Affine {
  readonly xPerCol: number
  readonly xPerRow: number
  readonly x0: number
  readonly yPerCol: number
  readonly yPerRow: number
  readonly y0: number
}

/**
 * What makes an affine a projective map: its x and y are divided by w = wPerCol·col + wPerRow·row + 1, above zero all
 * over the picture.
 */
export interface Perspective {
  readonly wPerCol: number
  readonly wPerRow: number
}

/** A coordinate reference system that a photo may be in. `definition` is what proj4 reads: a proj string or WKT 1. */
export interface PhotoCrs {
  readonly name: string
  readonly definition: string
  /** True where coordinates are longitude and latitude in degrees. */
  readonly inDegrees: boolean
  /** How far the reading of this system may be off, where it may be; else null. */
  readonly caution: string | null
}

/** Where a picture lies: its pixels in the coordinates of a reference system. */
export interface Placement {
  readonly affine: Affine
  /** Where the picture was taken at a slant. */
  readonly perspective?: Perspective
  readonly crs: PhotoCrs
}

/** A picture of `widthPx` × `heightPx` with its place. */
export interface PlacedPixels {
  readonly widthPx: number
  readonly heightPx: number
  readonly placement: Placement
}

/** Upper left, upper right, lower right, lower left: the order in which MapLibre takes an image's corners. */
export type PhotoCorners = readonly [LonLat, LonLat, LonLat, LonLat]

export type PhotoSource = 'geotiff' | 'world file' | 'control points'

/**
 * What placing a photo gives, whichever way it was placed. Corners are the OUTER corners of the corner pixels, lon/lat
 * on WGS 84; where the photo crosses the 180th meridian its longitudes run on past ±180. `groundSampleM` is the side
 * of a square with the area of a pixel on the ground, at the photo's middle, in metres.
 */
export interface PlacedPhoto extends PlacedPixels {
  readonly corners: PhotoCorners
  readonly groundSampleM: number
  readonly source: PhotoSource
  /** Name of the reference system the photo came in. */
  readonly crs: string
  readonly notes: readonly string[]
}

/** Something about a photo that the person can mend: what it is about, and what to do. */
export interface PhotoFault {
  readonly kind: 'photo'
  readonly field: 'file' | 'crs' | 'georeference' | 'world file' | 'pixels' | 'points'
  readonly detail: string
}

export const photoFault = (field: PhotoFault['field'], detail: string): PhotoFault => ({ kind: 'photo', field, detail })

export const isPhotoFault = (value: object): value is PhotoFault => 'kind' in value && value.kind === 'photo'

/** A picture's pixels, row by row from the top: red, green, blue, opacity, 0–255 each, opacity not multiplied in. */
export interface Raster {
  readonly rgba: Uint8ClampedArray<ArrayBuffer>
  readonly widthPx: number
  readonly heightPx: number
}
