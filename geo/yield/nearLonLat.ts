import type { LonLat } from '../plane/lonLat.ts'
import type { Plane } from '../plane/plane.ts'

/** Side of a tile, in metres. */
const TILE_M = 32

/**
 * Lon/lat of places in the plane, quickly, for drawing: within tiles of 32 m the plane's own inverse is taken as even,
 * fitted at the tile's middle. True to 0.2 mm up to 70° of latitude; places that are the same come out the same.
 */
export function nearLonLat(plane: Plane): (x: number, y: number) => LonLat {
  const tiles = new Map<string, readonly number[]>()
  return (x, y) => {
    const i = Math.floor(x / TILE_M)
    const j = Math.floor(y / TILE_M)
    const key = `${i} ${j}`
    let fit = tiles.get(key)
    if (fit === undefined) {
      fit = fitted(plane, (i + 0.5) * TILE_M, (j + 0.5) * TILE_M)
      tiles.set(key, fit)
    }
    const dx = x - (i + 0.5) * TILE_M
    const dy = y - (j + 0.5) * TILE_M
    return [fit[0]! + fit[1]! * dx + fit[2]! * dy, fit[3]! + fit[4]! * dx + fit[5]! * dy]
  }
}

/** Longitude and latitude at a place, each with its change a metre eastwards and northwards. */
function fitted(plane: Plane, x: number, y: number): number[] {
  const h = TILE_M / 2
  const [lon, lat] = plane.toLonLat([x, y])
  const [west, east] = [plane.toLonLat([x - h, y]), plane.toLonLat([x + h, y])]
  const [south, north] = [plane.toLonLat([x, y - h]), plane.toLonLat([x, y + h])]
  return [
    lon,
    (east[0] - west[0]) / TILE_M,
    (north[0] - south[0]) / TILE_M,
    lat,
    (east[1] - west[1]) / TILE_M,
    (north[1] - south[1]) / TILE_M,
  ]
}
