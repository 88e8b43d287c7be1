import proj4 from 'proj4'
import { type LonLat, lonAbout, lonWithin180 } from '../plane/lonLat.ts'
import { gridAt, pixelAt } from './affine.ts'
import type { PlacedPixels } from './placement.ts'

/** Both ways between a picture's pixels (from its upper-left corner) and WGS 84. Numbers are not finite where the photo's grid does not reach. */
export interface PixelGround {
  /** Longitudes lie within 180° of the photo's middle, and so may run on past ±180. */
  lonLatOf(col: number, row: number): LonLat
  pixelOf(at: LonLat): readonly [col: number, row: number]
}

const nowhere = [Number.NaN, Number.NaN] as const

/** The ground under a placed picture. A grid in degrees may count longitudes from 0 to 360 or from −180 to 180. */
export const pixelGround = ({ widthPx, heightPx, placement }: PlacedPixels): PixelGround => {
  const { affine, crs } = placement
  const converter = proj4(crs.definition, '+proj=longlat +datum=WGS84 +no_defs')
  const [middleX, middleY] = gridAt(affine, widthPx / 2, heightPx / 2)

  const lonLatAt = (x: number, y: number): LonLat => {
    if (!(Number.isFinite(x) && Number.isFinite(y))) return nowhere
    const [lon, lat] = converter.forward([x, y])
    return [lon!, lat!]
  }
  const aboutLon = lonWithin180(lonLatAt(middleX, middleY)[0])

  return {
    lonLatOf: (col, row) => {
      const [lon, lat] = lonLatAt(...gridAt(affine, col, row))
      return [lonAbout(aboutLon, lon), lat]
    },
    pixelOf: ([lon, lat]) => {
      if (!(Number.isFinite(lon) && Number.isFinite(lat))) return nowhere
      const [x, y] = converter.inverse([lon, lat])
      return pixelAt(affine, crs.inDegrees ? lonAbout(middleX, x!) : x!, y!)
    },
  }
}
