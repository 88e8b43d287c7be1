import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../geo/plane/plane.ts'
import type { DrawingGround, FarmMap, Thing } from '../map/farmMap.ts'
import { type Edge, type EdgeIndex, edgeIndex } from './edgeIndex.ts'
import { distanceM } from './measureShape.ts'
import type { Pixel } from './overlay.ts'
import { footOn, type Segment, type Snaps, type Surroundings } from './snap.ts'

/** How far the pointer reaches for what it snaps to, and how far it looks for edges to lie along or square to. */
const REACH_PX = 12
const LOOK_PX = 40
/** How far it looks for edges to carry on beyond their ends. */
const FAR_PX = 240
/** How many edges it takes at most; where more stand about, it looks less far, but never less than it reaches. */
const MOST_CLOSE = 150
const MOST_FAR = 300

/** The ground under the map: between pixels and metres of the plane, and what stands about. */
export interface Ground {
  readonly plane: Plane
  toPixel(at: Metres): Pixel
  toMetres(at: Pixel): Metres
  lonLat(at: Pixel): LonLat
  around(at: Pixel, free: boolean): Surroundings
  /** The edge nearest to a place on the screen, within so many pixels. */
  edgeAt(at: Pixel, reachPx: number): Segment | null
  /** Lays the plane about a place, where the farm has none yet. */
  settle(at: LonLat): void
}

const LAYERS = ['fields', 'beds', 'rows', 'supports', 'structures', 'trees'] as const
const ownerOf = ({ kind, id }: Thing): string => `${kind} ${id}`

/** The edges of a map, indexed anew only when what it shows has changed. */
const indexes = new WeakMap<DrawingGround, { readonly changes: number; readonly index: EdgeIndex }>()
function edgesOf(drawing: DrawingGround): EdgeIndex {
  const known = indexes.get(drawing)
  if (known?.changes === drawing.changes) return known.index
  const things = LAYERS.flatMap((layer) =>
    drawing
      .featuresOf(layer)
      .map(({ properties, geometry }) => ({ owner: ownerOf({ kind: layer, id: properties.id }), geometry })),
  )
  const index = edgeIndex(things)
  indexes.set(drawing, { changes: drawing.changes, index })
  return index
}

/** The ground of a map. Without an origin the plane lies about the map's middle until it is settled. `without` is left out of what stands about. */
export function groundOf(
  { drawing }: FarmMap,
  origin: LonLat | null,
  without: readonly Thing[],
  snaps: () => Snaps,
): Ground {
  const { map } = drawing
  const { lng, lat } = map.getCenter()
  let plane = planeAbout(origin ?? [lng, lat])
  let settled = origin !== null
  const places = new WeakMap<Edge, Segment>()
  const left = new Set(without.map(ownerOf))
  /** An edge in the plane; reckoned once while the plane stands. */
  const inPlane = (edge: Edge): Segment => {
    const known = places.get(edge)
    if (known) return known
    const segment: Segment = [plane.toMetres(edge[0]), plane.toMetres(edge[1])]
    if (settled) places.set(edge, segment)
    return segment
  }
  const looked = (at: Pixel) => {
    const here = lonLat(at)
    const degPerPx = 360 / (512 * 2 ** map.getZoom())
    const shrink = Math.cos((here[1] * Math.PI) / 180)
    const index = edgesOf(drawing)
    const near = (px: number, most = Infinity) => index.near(here, px * degPerPx, px * degPerPx * shrink, left, most)
    return { near, metresPerPx: degPerPx * 111_320 * shrink }
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
      const { near, metresPerPx } = looked(at)
      const reachM = REACH_PX * metresPerPx
      if (free) return { edges: [], far: [], reachM: 0, snaps: snaps() }
      const close = near(LOOK_PX, MOST_CLOSE) ?? near(REACH_PX) ?? []
      let far = close
      for (let px = LOOK_PX * 2; snaps().extension && px <= FAR_PX; px += LOOK_PX * 2) {
        const wider = near(px, MOST_FAR)
        if (!wider) break
        far = wider
      }
      return { edges: close.map(inPlane), far: far.map(inPlane), reachM, snaps: snaps() }
    },
    edgeAt(at, reachPx) {
      const { near, metresPerPx } = looked(at)
      const place = plane.toMetres(lonLat(at))
      let best: Segment | null = null
      let least = reachPx * metresPerPx
      for (const edge of (near(reachPx) ?? []).map(inPlane)) {
        const off = distanceM(place, footOn(edge, place))
        if (off > least || distanceM(...edge) === 0) continue
        least = off
        best = edge
      }
      return best
    },
    settle(at) {
      if (settled) return
      settled = true
      plane = planeAbout(at)
    },
  }
}
