import { crsOfEpsg, crsOfWkt } from '../../../geo/photo/crs.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import {
  isPhotoFault,
  type PhotoCrs,
  type PhotoFault,
  type PlacedPhoto,
  photoFault,
} from '../../../geo/photo/placement.ts'
import { placeByWorldFile, placeGeoTiff } from '../../../geo/photo/placePhoto.ts'
import { isTiff, mimeOf, type PictureFiles } from './pictureFiles.ts'

/** Where a photo lies: by its world file where there is one, else by a GeoTIFF's own tags. `crs`: `EPSG:32617` or a number. */
export async function placePicture({ kept }: PictureFiles, crs: string | null): Promise<PlacedPhoto | PhotoFault> {
  const { picture, worldFile, prj } = kept
  if (!worldFile) {
    if (isTiff(picture.ending)) return placeGeoTiff(picture.bytes)
    return photoFault('world file', 'Choose the picture together with its world file (.pgw, .jgw, .wld).')
  }
  const system = systemOf(crs, prj?.bytes)
  if (system !== null && isPhotoFault(system)) return system
  const size = await sizeOf(picture.bytes, picture.ending)
  if (isPhotoFault(size)) return size
  return placeByWorldFile(new TextDecoder().decode(worldFile.bytes), size.widthPx, size.heightPx, system)
}

function systemOf(crs: string | null, prj: Uint8Array | undefined): PhotoCrs | PhotoFault | null {
  if (crs === null) return prj ? crsOfWkt(new TextDecoder().decode(prj)) : null
  const code = /^(?:EPSG:)?(\d{4,6})$/i.exec(crs.trim())?.[1]
  return code ? crsOfEpsg(Number(code)) : photoFault('crs', 'Give the EPSG code of the grid, as 32617 or EPSG:32617.')
}

async function sizeOf(
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
