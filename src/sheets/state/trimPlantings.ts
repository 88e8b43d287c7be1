import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { Edit } from '../../desk/door.ts'
import { lineLengthM } from '../../draw/measureShape.ts'
import type { PlacedThing } from '../../draw/session.ts'
import { shapeOf } from '../../draw/shape.ts'

/** A stretch may end so far beyond its row, as the database has it. */
const BEYOND_M = 0.1

/**
 * Changes to the plantings of rows that come to be shorter than what stands in them: a stretch that begins in the row
 * ends where the row ends. One that would lie wholly beyond is left, so that the step is refused and nothing is lost.
 */
export function trimPlantings(
  placed: readonly PlacedThing[],
  plantings: readonly AnyRecord[],
  plane: Plane,
): readonly Edit[] {
  const rows = placed.filter(({ kind, geometry }) => kind === 'rows' && geometry.type === 'LineString')
  if (rows.length === 0) return []
  const lengthM = new Map(
    rows.flatMap(({ id, geometry }) =>
      geometry.type === 'LineString' ? [[id, lineLengthM(shapeOf(geometry, plane).parts[0] ?? [])] as const] : [],
    ),
  )
  return plantings.flatMap(({ id, row, from_m, to_m }): Edit[] => {
    const end = lengthM.get(String(row))
    if (end === undefined || typeof to_m !== 'number' || to_m <= end + BEYOND_M) return []
    if (typeof from_m === 'number' && from_m >= end) return []
    return [{ do: 'change', kind: 'plantings', id, to: { to_m: end } }]
  })
}
