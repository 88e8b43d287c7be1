import { crsOfGeoKeys, type GeoKeys, pixelIsPoint } from './geoKeys.ts'
import { affineOfTags } from './georeference.ts'
import { emptyGridBook, type GridBook } from './gridBook.ts'
import { openTiff, type TiffFile, tiffFault } from './openTiff.ts'
import { isPhotoFault, type PhotoCrs, type PhotoFault, type PlacedPixels } from './placement.ts'

/** A GeoTIFF's size and place, with what the person should know about them. */
export interface GeoTiffReading extends PlacedPixels {
  readonly crsName: string
  readonly notes: readonly string[]
}

/**
 * Where a GeoTIFF lies, from its bytes, or read by parts. Reads directories and tags only, no pixels. A file without a place, in a grid
 * that is not known here, or that is no TIFF comes back as a fault that says what to do.
 * `given` is the grid that the person named, which goes before the file's own.
 */
export const readGeoTiff = async (
  file: TiffFile,
  book: GridBook = emptyGridBook,
  given: PhotoCrs | null = null,
): Promise<GeoTiffReading | PhotoFault> => {
  const tiff = await openTiff(file)
  if (isPhotoFault(tiff)) return tiff
  const { full } = tiff
  try {
    const keys = full.getGeoKeys() as GeoKeys | null
    const affine = affineOfTags({
      pixelScale: full.fileDirectory.getValue('ModelPixelScale'),
      tiepoint: full.fileDirectory.getValue('ModelTiepoint'),
      transformation: full.fileDirectory.getValue('ModelTransformation'),
      isPoint: pixelIsPoint(keys),
    })
    if (isPhotoFault(affine)) return affine
    const crs = given ?? (await crsOfGeoKeys(keys, book))
    if (isPhotoFault(crs)) return crs
    return {
      widthPx: full.getWidth(),
      heightPx: full.getHeight(),
      placement: { affine, crs },
      crsName: crs.name,
      notes: crs.caution === null ? [] : [crs.caution],
    }
  } catch (cause) {
    return tiffFault(cause)
  }
}
