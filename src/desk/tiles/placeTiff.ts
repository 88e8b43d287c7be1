import type { ByteSource } from '../../../geo/photo/byteSource.ts'
import { crsOfWkt } from '../../../geo/photo/crs.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import { isPhotoFault, type PhotoFault, type PlacedPhoto } from '../../../geo/photo/placement.ts'
import { placeByWorldFile, placeGeoTiff } from '../../../geo/photo/placePhoto.ts'
import { crsOfTyped } from '../../../geo/photo/typedCrs.ts'

/** A TIFF that is read by parts, and what lies beside it. */
export interface TiffFiles {
  readonly picture: ByteSource
  readonly worldFile: string | null
  readonly prj: string | null
}

/** Where a TIFF lies: by its world file where there is one, else by its own tags; in the grid given, where one is. */
export async function placeTiff(
  { picture, worldFile, prj }: TiffFiles,
  crs: string | null,
  book: GridBook,
): Promise<PlacedPhoto | PhotoFault> {
  const given = crs === null ? null : await crsOfTyped(crs, book)
  if (given !== null && isPhotoFault(given)) return given
  if (worldFile === null) return placeGeoTiff(picture, book, given)
  const system = given ?? (prj === null ? null : crsOfWkt(prj))
  if (system !== null && isPhotoFault(system)) return system
  const tiff = await openTiff(picture)
  if (isPhotoFault(tiff)) return tiff
  return placeByWorldFile(worldFile, tiff.full.getWidth(), tiff.full.getHeight(), system)
}
