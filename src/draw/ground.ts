import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../geo/plane/plane.ts'
import type { FarmMap, Thing } from '../map/farmMap.ts'
import { type EdgeIndex, edgeIndex } from './edgeIndex.ts'
import type { Pixel } from './overlay.ts'
import type { Surroundings } from './sketch.ts'
import type { Segment } from './snap.ts'

/** How far the pointer reaches for what it snaps to, and how far it looks for edges to lie along or square to. */
const REACH_PX = 12
const LOOK_PX = 40

/** The ground under the map: between pixels and metres of the plane, and what stands about. */
export interface Ground {
  readonly plane: Plane
  toPixel(at: Metres): Pixel
  toMetres(at: Pixel): Metres
  lonLat(at: Pixel): LonLat
  around(at: Pixel, free: boolean): Surroundings
  /** Lays the plane about a place, where the farm has none yet. */
  settle(at: LonLat): void
}

/** The ground of a map. Without an origin the plane lies about the map's middle until it is settled. `without` is left out of what stands about. */
export function groundOf({ drawing }: FarmMap, origin: LonLat | null, without: Thing | null): Ground {
  const { map } = drawing
  const { lng, lat } = map.getCenter()
  let plane = planeAbout(origin ?? [lng, lat])
  let settled = origin !== null
  let index: EdgeIndex | null = null
  let indexed = -1
  const edges = (): EdgeIndex => {
    if (index && indexed === drawing.changes) return index
    indexed = drawing.changes
    const layers = ['fields', 'beds', 'rows', 'supports'] as const
    index = edgeIndex(
      layers.flatMap((layer) =>
        drawing
          .featuresOf(layer)
          .filter(({ properties }) => without?.kind !== layer || without.id !== properties.id)
          .map(({ geometry }) => geometry),
      ),
    )
    return index
  }
  const lonLat = ([x, y]: Pixel): LonLat => {
    const at = map.unproject([x, y])
    return [at.lng, at.lat]
  }
  return {
    get plane() {
      return plane
    },
    toPixel(at) {
      const [lon, lat] = plane.toLonLat(at)
      const { x, y } = map.project([lon, lat])
      return [x, y]
    },
    toMetres: (at) => plane.toMetres(lonLat(at)),
    lonLat,
    around(at, free) {
      if (free) return { edges: [], reachM: 0 }
      const here = lonLat(at)
      const degPerPx = 360 / (512 * 2 ** map.getZoom())
      const metresPerPx = degPerPx * 111_320 * Math.cos((here[1] * Math.PI) / 180)
      const look = LOOK_PX * degPerPx
      const found = edges().near(here, look, look * Math.cos((here[1] * Math.PI) / 180))
      return {
        edges: found.map(([a, b]): Segment => [plane.toMetres(a), plane.toMetres(b)]),
        reachM: REACH_PX * metresPerPx,
      }
    },
    settle(at) {
      if (settled) return
      settled = true
      plane = planeAbout(at)
    },
  }
}
