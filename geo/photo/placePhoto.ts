import type { PhotoPlacing } from '../model/photos.ts'
import type { LonLat } from '../plane/lonLat.ts'
import { planeText } from '../plane/plane.ts'
import { photoCorners } from './corners.ts'
import { readGeoTiff } from './geoTiff.ts'
import { emptyGridBook, type GridBook } from './gridBook.ts'
import { groundSampleM } from './groundSample.ts'
import type { Homography } from './homography.ts'
import type { TiffFile } from './openTiff.ts'
import {
  isPhotoFault,
  type PhotoCrs,
  type PhotoFault,
  type PhotoSource,
  type PlacedPhoto,
  type PlacedPixels,
} from './placement.ts'
import { readWorldFile } from './worldFile.ts'

const placed = (
  { widthPx, heightPx, placement, notes }: PlacedPixels & { readonly notes: readonly string[] },
  source: PhotoSource,
): PlacedPhoto | PhotoFault => {
  const pixels = { widthPx, heightPx, placement }
  const corners = photoCorners(pixels)
  if (isPhotoFault(corners)) return corners
  return { ...pixels, corners, groundSampleM: groundSampleM(pixels), source, crs: placement.crs.name, notes }
}

/** A GeoTIFF placed by its own tags, in the grid that they tell or in the one that the person gave. */
export const placeGeoTiff = async (
  file: TiffFile,
  book: GridBook = emptyGridBook,
  given: PhotoCrs | null = null,
): Promise<PlacedPhoto | PhotoFault> => {
  const reading = await readGeoTiff(file, book, given)
  return isPhotoFault(reading) ? reading : placed(reading, 'geotiff')
}

/**
 * A picture of `widthPx` × `heightPx` placed by its world file. `crs` is the grid chosen, or read from a `.prj` by
 * `crsOfWkt`; null lets lon/lat be told from the numbers, and asks for the grid otherwise.
 */
export const placeByWorldFile = (
  worldFile: string,
  widthPx: number,
  heightPx: number,
  crs: PhotoCrs | null,
): PlacedPhoto | PhotoFault => {
  const reading = readWorldFile(worldFile, widthPx, heightPx, crs)
  return isPhotoFault(reading) ? reading : placed(reading, 'world file')
}

/**
 * A picture of `widthPx` × `heightPx` placed by a fit (as `fitTransform` gives it, its last number 1): from its pixels to
 * metres in the plane about `origin`.
 */
export const placeByFit = (
  transform: Homography,
  origin: LonLat,
  widthPx: number,
  heightPx: number,
): PlacedPhoto | PhotoFault => {
  const [xPerCol, xPerRow, x0, yPerCol, yPerRow, y0, wPerCol, wPerRow] = transform
  const crs: PhotoCrs = {
    name: 'the farm’s own plane',
    definition: planeText(origin),
    inDegrees: false,
    caution: null,
  }
  const placement = {
    affine: { xPerCol, xPerRow, x0, yPerCol, yPerRow, y0 },
    crs,
    ...(wPerCol !== 0 || wPerRow !== 0 ? { perspective: { wPerCol, wPerRow } } : {}),
  }
  return placed({ widthPx, heightPx, placement, notes: [] }, 'control points')
}

/** A photo of the farm as its control points placed it when it was kept. */
export const placedAgain = ({ transform, plane, width_px, height_px }: PhotoPlacing): PlacedPhoto | PhotoFault =>
  placeByFit(transform, plane, width_px, height_px)
