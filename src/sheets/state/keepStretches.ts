import type { LineString } from 'geojson'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { Edit } from '../../desk/door.ts'
import { distanceM, lineLengthM } from '../../draw/measureShape.ts'
import type { PlacedThing } from '../../draw/session.ts'
import { shapeOf } from '../../draw/shape.ts'

/** Lengths that agree to this are the same: a millimetre. */
const SAME_M = 0.001

/**
 * Changes to the plantings of rows that come to be longer or shorter, so that what grows stays where it is: a row that
 * was changed at its start has its metres counted from the new one, and a stretch ends where its row ends. One that
 * would lie wholly beyond is left as it is, so that the step is refused and nothing is lost.
 */
export function keepStretches(
  before: readonly PlacedThing[],
  after: readonly PlacedThing[],
  plantings: readonly AnyRecord[],
  plane: Plane,
): readonly Edit[] {
  const was = new Map(before.map((thing) => [`${thing.kind} ${thing.id}`, thing]))
  const rows = new Map<string, { readonly endM: number; readonly onM: number }>()
  for (const { kind, id, geometry } of after) {
    const old = was.get(`${kind} ${id}`)?.geometry
    if (kind !== 'rows' || geometry.type !== 'LineString' || old?.type !== 'LineString') continue
    const [a, b] = [lineOf(old, plane), lineOf(geometry, plane)]
    const [oldM, endM] = [lineLengthM(a), lineLengthM(b)]
    if (Math.abs(endM - oldM) <= SAME_M) continue
    const startMoved = distanceM(a[0]!, b[0]!) > distanceM(a.at(-1)!, b.at(-1)!)
    rows.set(id, { endM, onM: startMoved ? endM - oldM : 0 })
  }
  return plantings.flatMap(({ id, row, from_m, to_m }): Edit[] => {
    const now = rows.get(String(row))
    if (!now || (typeof from_m !== 'number' && typeof to_m !== 'number')) return []
    const from = (typeof from_m === 'number' ? from_m : 0) + now.onM
    const to = typeof to_m === 'number' ? to_m + now.onM : null
    if (from >= now.endM || (to !== null && to <= 0)) return []
    const kept = { from_m: Math.max(0, from), to_m: to === null ? null : Math.min(to, now.endM) }
    const same = kept.from_m === (from_m ?? 0) && kept.to_m === (to_m ?? null)
    return same ? [] : [{ do: 'change', kind: 'plantings', id, to: kept }]
  })
}

const lineOf = (geometry: LineString, plane: Plane): readonly Metres[] => shapeOf(geometry, plane).parts[0] ?? []
