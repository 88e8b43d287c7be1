import { groundMPerUnit } from '../../../geo/photo/mercator.ts'
import type { PhotoCorners } from '../../../geo/photo/placement.ts'
import type { OpenPhoto } from './openPhotos.ts'
import type { TiledPhoto } from './tilesDoor.ts'

/** Photos no longer than this are drawn in one piece. */
const ONE_PIECE_PX = 4096
/** Side of a tile on the map, in pixels of the page. */
const TILE_PX = 256
const MOST_ZOOM = 24

/** Of a photo's size: wider than the sides of any photo of a farm bow outward between its corners on the map. */
const BOW = 0.001

/** An upright rectangle that holds all of a photo. */
export function boundsOf(corners: PhotoCorners): readonly [west: number, south: number, east: number, north: number] {
  const lons = corners.map(([lon]) => lon)
  const lats = corners.map(([, lat]) => lat)
  const [west, south, east, north] = [Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats)]
  const [across, down] = [BOW * (east - west), BOW * (north - south)]
  return [west - across, south - down, east + across, north + down]
}

/** How an opened photo is asked for by a map; null where it is small enough to be drawn in one piece. */
export function tiledPhoto({ placed, levels, lacks }: OpenPhoto): TiledPhoto | null {
  const { widthPx, heightPx, corners, groundSampleM } = placed
  if (Math.max(widthPx, heightPx) <= ONE_PIECE_PX) return null
  const bounds = boundsOf(corners)
  const [west, south, east, north] = bounds
  // A map unit is the whole world; at zoom z a tile's pixel is 1 / (256 · 2^z) of it.
  const pixelUnits = groundSampleM / groundMPerUnit((south + north) / 2)
  const maxZoom = Math.min(MOST_ZOOM, Math.max(0, Math.ceil(Math.log2(1 / (pixelUnits * TILE_PX)))))
  const halvings = Math.ceil(Math.log2(Math.max(widthPx, heightPx) / 16))
  const upright = [
    [west, north],
    [east, north],
    [east, south],
    [west, south],
  ] as const
  return {
    corners: upright,
    bounds,
    minZoom: Math.max(0, maxZoom - halvings),
    maxZoom,
    slow: lacks?.why ?? null,
    isReady: levels.length > 0,
  }
}
