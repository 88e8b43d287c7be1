import { photoCorners } from './corners.ts'
import { readGeoTiff } from './geoTiff.ts'
import { emptyGridBook, type GridBook } from './gridBook.ts'
import { groundSampleM } from './groundSample.ts'
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
