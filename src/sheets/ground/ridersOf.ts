import type { LineString, Point, Polygon } from 'geojson'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import { within } from '../../draw/ops/cutRing.ts'
import { middleAlong, shareInside } from '../../draw/ops/shareInside.ts'
import type { PlacedThing } from '../../draw/session.ts'
import { type Corners, shapeOf } from '../../draw/shape.ts'

export type RiderKind = 'beds' | 'rows' | 'supports' | 'trees'
/** What stands in a bed and may go along with it; a bed of a field that is moved goes for its own. */
export interface Rider extends PlacedThing {
  readonly kind: RiderKind
  readonly bed: string
}

/** A support or tree lies in a bed where more than half of it does. */
const MOST_OF = 0.5

/** What stands in beds: their rows, the supports of any day that lie in them for more than half their length, and the trees. */
export function ridersOf(
  beds: readonly { readonly id: string; readonly geometry: Polygon }[],
  records: Readonly<Record<Exclude<RiderKind, 'beds'>, readonly AnyRecord[]>>,
  plane: Plane,
): readonly Rider[] {
  const grounds = beds.map(({ id, geometry }) => {
    const rings = shapeOf(geometry, plane).parts
    return { id, rings, box: boxOf(rings[0] ?? []) }
  })
  const bedOf = (line: Corners): string | null => {
    const middle = line.length === 1 ? line[0]! : middleAlong(line)
    for (const { id, rings, box } of grounds) {
      if (middle[0] < box[0] || middle[1] < box[1] || middle[0] > box[2] || middle[1] > box[3]) continue
      if (line.length === 1 ? within(rings, middle) : shareInside(line, rings) > MOST_OF) return id
    }
    return null
  }
  const wanted = new Set(beds.map(({ id }) => id))
  const out: Rider[] = []
  for (const { id, bed, geom } of records.rows)
    if (geom && wanted.has(String(bed))) out.push({ kind: 'rows', id, bed: String(bed), geometry: geom })
  for (const kind of ['supports', 'trees'] as const)
    for (const { id, geom } of records[kind]) {
      if (geom?.type !== 'LineString' && geom?.type !== 'Point') continue
      const bed = bedOf(shapeOf(geom as LineString | Point, plane).parts[0] ?? [])
      if (bed !== null) out.push({ kind, id, bed, geometry: geom })
    }
  return out
}

/** West, south, east, north. */
function boxOf(ring: Corners): readonly [number, number, number, number] {
  return ring.reduce<[number, number, number, number]>(
    ([w, s, e, n], [x, y]) => [Math.min(w, x), Math.min(s, y), Math.max(e, x), Math.max(n, y)],
    [Infinity, Infinity, -Infinity, -Infinity],
  )
}
