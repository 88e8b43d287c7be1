import { crsOfGeoKeys, pixelIsPoint } from './geoKeys.ts'
import { affineOfTags } from './georeference.ts'
import { openTiff, tiffFault } from './openTiff.ts'
import { isPhotoFault, type PhotoFault, type PlacedPixels } from './placement.ts'

/** A GeoTIFF's size and place, with what the person should know about them. */
export interface GeoTiffReading extends PlacedPixels {
  readonly crsName: string
  readonly notes: readonly string[]
}

/**
 * Where a GeoTIFF lies, from its bytes. Reads directories and tags only, no pixels. A file without a place, in a grid
 * that is not known here, or that is no TIFF comes back as a fault that says what to do.
 */
export const readGeoTiff = async (bytes: Uint8Array<ArrayBuffer>): Promise<GeoTiffReading | PhotoFault> => {
  const tiff = await openTiff(bytes)
  if (isPhotoFault(tiff)) return tiff
  const { full } = tiff
  try {
    const keys = full.getGeoKeys()
    const affine = affineOfTags({
      pixelScale: full.fileDirectory.getValue('ModelPixelScale'),
      tiepoint: full.fileDirectory.getValue('ModelTiepoint'),
      transformation: full.fileDirectory.getValue('ModelTransformation'),
      isPoint: pixelIsPoint(keys),
    })
    if (isPhotoFault(affine)) return affine
    const crs = crsOfGeoKeys(keys)
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
