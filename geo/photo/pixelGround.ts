import proj4 from 'proj4'
import { type LonLat, lonAbout, lonWithin180 } from '../plane/lonLat.ts'
import { gridAt, pixelAt } from './affine.ts'
import { depthAt, type Homography, mapped, wayBack } from './homography.ts'
import type { PlacedPixels, Placement } from './placement.ts'

/** Both ways between a picture's pixels (from its upper-left corner) and WGS 84. Numbers are not finite where the photo's grid does not reach. */
export interface PixelGround {
  /** Longitudes lie within 180° of the photo's middle, and so may run on past ±180. */
  lonLatOf(col: number, row: number): LonLat
  pixelOf(at: LonLat): readonly [col: number, row: number]
}

const nowhere = [Number.NaN, Number.NaN] as const

/** The ground under a placed picture. A grid in degrees may count longitudes from 0 to 360 or from −180 to 180. */
export const pixelGround = ({ widthPx, heightPx, placement }: PlacedPixels): PixelGround => {
  const { crs } = placement
  const grid = gridOf(placement)
  const converter = proj4(crs.definition, '+proj=longlat +datum=WGS84 +no_defs')
  const [middleX, middleY] = grid.at(widthPx / 2, heightPx / 2)

  const lonLatAt = (x: number, y: number): LonLat => {
    if (!(Number.isFinite(x) && Number.isFinite(y))) return nowhere
    const [lon, lat] = converter.forward([x, y])
    return [lon!, lat!]
  }
  const aboutLon = lonWithin180(lonLatAt(middleX, middleY)[0])

  return {
    lonLatOf: (col, row) => {
      const [lon, lat] = lonLatAt(...grid.at(col, row))
      return [lonAbout(aboutLon, lon), lat]
    },
    pixelOf: ([lon, lat]) => {
      if (!(Number.isFinite(lon) && Number.isFinite(lat))) return nowhere
      const [x, y] = converter.inverse([lon, lat])
      return grid.pixelAt(crs.inDegrees ? lonAbout(middleX, x!) : x!, y!)
    },
  }
}

interface Grid {
  at(col: number, row: number): readonly [x: number, y: number]
  pixelAt(x: number, y: number): readonly [col: number, row: number]
}

/** Both ways between a picture's pixels and its grid. A place behind the camera of a slanted picture is nowhere in it. */
const gridOf = ({ affine, perspective }: Placement): Grid => {
  if (perspective === undefined)
    return { at: (col, row) => gridAt(affine, col, row), pixelAt: (x, y) => pixelAt(affine, x, y) }
  const { xPerCol, xPerRow, x0, yPerCol, yPerRow, y0 } = affine
  const to: Homography = [xPerCol, xPerRow, x0, yPerCol, yPerRow, y0, perspective.wPerCol, perspective.wPerRow, 1]
  const back = wayBack(to)
  return {
    at: (col, row) => mapped(to, [col, row]),
    pixelAt: (x, y) => {
      const spot = mapped(back, [x, y])
      return depthAt(to, spot) > 0 ? spot : nowhere
    },
  }
}
