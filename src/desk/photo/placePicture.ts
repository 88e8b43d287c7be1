import { crsOfWkt } from '../../../geo/photo/crs.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import {
  isPhotoFault,
  type PhotoCrs,
  type PhotoFault,
  type PlacedPhoto,
  photoFault,
} from '../../../geo/photo/placement.ts'
import { placeByWorldFile, placeGeoTiff } from '../../../geo/photo/placePhoto.ts'
import { crsOfTyped } from '../../../geo/photo/typedCrs.ts'
import { isTiff, mimeOf, type PictureFiles } from './pictureFiles.ts'

/**
 * Where a photo lies: by its world file where there is one, else by a GeoTIFF's own tags. `crs` is the grid that the
 * person gave: `EPSG:32617`, a number, or a PROJ string.
 */
export async function placePicture(
  { kept }: PictureFiles,
  crs: string | null,
  book: GridBook,
): Promise<PlacedPhoto | PhotoFault> {
  const { picture, worldFile, prj } = kept
  const given = crs === null ? null : await crsOfTyped(crs, book)
  if (given !== null && isPhotoFault(given)) return given
  if (!worldFile) {
    if (isTiff(picture.ending)) return placeGeoTiff(picture.bytes, book, given)
    return photoFault(
      'georeference',
      'The picture does not say where it lies: choose it together with its world file (.pgw, .jgw, .wld), or place it by control points.',
    )
  }
  const system: PhotoCrs | PhotoFault | null = given ?? (prj ? crsOfWkt(new TextDecoder().decode(prj.bytes)) : null)
  if (system !== null && isPhotoFault(system)) return system
  const size = await sizeOf(picture.bytes, picture.ending)
  if (isPhotoFault(size)) return size
  return placeByWorldFile(new TextDecoder().decode(worldFile.bytes), size.widthPx, size.heightPx, system)
}

/** Size of a picture as it stands upright. */
export async function sizeOf(
  bytes: Uint8Array<ArrayBuffer>,
  ending: string,
): Promise<{ widthPx: number; heightPx: number } | PhotoFault> {
  if (isTiff(ending)) {
    const tiff = await openTiff(bytes)
    return isPhotoFault(tiff) ? tiff : { widthPx: tiff.full.getWidth(), heightPx: tiff.full.getHeight() }
  }
  try {
    const bitmap = await createImageBitmap(new Blob([bytes], { type: mimeOf(ending) }))
    const size = { widthPx: bitmap.width, heightPx: bitmap.height }
    bitmap.close()
    return size
  } catch {
    return photoFault('file', 'The picture could not be read. It may be cut short or damaged.')
  }
}
