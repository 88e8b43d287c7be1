import { fromCentres, isUsable } from './affine.ts'
import { type Affine, type PhotoFault, photoFault } from './placement.ts'

/** The GeoTIFF tags that say where pixels lie; undefined where the file has none. */
export interface GeoTags {
  readonly pixelScale: ArrayLike<number> | undefined
  readonly tiepoint: ArrayLike<number> | undefined
  readonly transformation: ArrayLike<number> | undefined
  /** True where the tags are told for pixel centres (PixelIsPoint). */
  readonly isPoint: boolean
}

const bare =
  'The picture does not say where it lies: it needs a world file beside it (.tfw, .jgw, .pgw) or control points'

const fromScale = (scale: ArrayLike<number>, tie: ArrayLike<number>): Affine => {
  const perCol = scale[0]!
  const perRow = -Math.abs(scale[1]!)
  return {
    xPerCol: perCol,
    xPerRow: 0,
    x0: tie[3]! - tie[0]! * perCol,
    yPerCol: 0,
    yPerRow: perRow,
    y0: tie[4]! - tie[1]! * perRow,
  }
}

const fromMatrix = (m: ArrayLike<number>): Affine => ({
  xPerCol: m[0]!,
  xPerRow: m[1]!,
  x0: m[3]!,
  yPerCol: m[4]!,
  yPerRow: m[5]!,
  y0: m[7]!,
})

/**
 * Where a GeoTIFF's pixels lie, told for pixel corners (OGC GeoTIFF 1.1, section 7 and annex C; in the order in which
 * GDAL takes the tags: pixel scale with its first tie point, else the 4 × 4 transformation). Rows run southward even
 * where a writer gave a negative scale, as GDAL reads it. Under PixelIsPoint the tags meet pixel centres, so the corner
 * lies half a pixel before them.
 */
export const affineOfTags = ({ pixelScale, tiepoint, transformation, isPoint }: GeoTags): Affine | PhotoFault => {
  const hasScale = pixelScale !== undefined && pixelScale.length >= 2 && pixelScale[0] !== 0 && pixelScale[1] !== 0
  const hasTie = tiepoint !== undefined && tiepoint.length >= 6
  const found =
    hasScale && hasTie
      ? fromScale(pixelScale, tiepoint)
      : transformation !== undefined && transformation.length >= 16
        ? fromMatrix(transformation)
        : undefined
  if (found === undefined && hasTie)
    return photoFault(
      'georeference',
      'The file ties only single points to the ground. Straighten it first, for example with "gdalwarp photo.tif straight.tif", or place it by control points.',
    )
  if (found === undefined) return photoFault('georeference', `${bare}.`)
  if (!isUsable(found))
    return photoFault('georeference', `The file's place makes no sense: its pixels have no area on the ground.`)
  return isPoint ? fromCentres(found) : found
}
