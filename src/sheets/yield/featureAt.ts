import type { Feature, MultiPolygon, Polygon } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { holds } from '../ground/lies.ts'

/** Boxes of a list's features, reckoned once a list: west, south, east, north of each in turn. */
const boxes = new WeakMap<readonly Feature<Polygon | MultiPolygon, unknown>[], Float64Array>()

/** Which of the features lies at a place; null where none does. */
export function featureAt(features: readonly Feature<Polygon | MultiPolygon, unknown>[], at: LonLat): number | null {
  const box = boxes.get(features) ?? boxesOf(features)
  const [lon, lat] = at
  for (let i = 0; i < features.length; i += 1) {
    const k = 4 * i
    if (lon < box[k]! || lat < box[k + 1]! || lon > box[k + 2]! || lat > box[k + 3]!) continue
    if (holds(features[i]!.geometry, at)) return i
  }
  return null
}

function boxesOf(features: readonly Feature<Polygon | MultiPolygon, unknown>[]): Float64Array {
  const box = new Float64Array(4 * features.length)
  features.forEach(({ geometry }, i) => {
    const rings = geometry.type === 'Polygon' ? geometry.coordinates : geometry.coordinates.flat()
    const all = rings.flat()
    const lons = all.map(([lon]) => lon!)
    const lats = all.map(([, lat]) => lat!)
    box.set([Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats)], 4 * i)
  })
  boxes.set(features, box)
  return box
}
