import type { LaidRow } from '../../../../geo/layout/layRows.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import { geometryOf } from '../../../draw/shape.ts'
import type { Proposed } from '../../../map/farmMap.ts'
import type { Edits } from '../../state/steps.ts'
import { sideWords } from './compass.ts'
import type { BedsReckoned } from './reckonBeds.ts'

/** The edits that keep what was laid out: all beds, then all rows, since a step writes neighbours of one kind together. */
export function bedEdits(
  { beds }: BedsReckoned,
  kept: { readonly field: string; readonly made: string | null; readonly rowsNamed: RowNaming },
  plane: Plane,
  newId: () => string,
): Edits {
  const named = beds.map((one) => ({ ...one, id: newId() }))
  return [
    ...named.map(({ id, name, bed }) => {
      const geom = geometryOf({ type: 'Polygon', parts: [bed.corners] }, plane)
      const record = { id, extra: {}, field: kept.field, name, made: kept.made, geom }
      return { do: 'add' as const, kind: 'beds', record }
    }),
    ...named.flatMap(({ id, name, rows }) => rowEdits({ id, name }, rows, kept.rowsNamed, plane, newId)),
  ]
}

/** How rows are named: by their side, or by a number from `start` on behind the bed's name. */
export type RowNaming =
  | { readonly by: 'side' }
  | { readonly by: 'number'; readonly join: string; readonly start: number }

export function rowNames(bed: string, rows: readonly LaidRow[], naming: RowNaming): string[] {
  return rows.map(({ side, bearingDeg }, n) =>
    naming.by === 'side' ? `${bed} ${sideWords(bearingDeg)[side]}` : `${bed}${naming.join}${naming.start + n}`,
  )
}

/** The edits that keep a bed's new rows. */
export function rowEdits(
  bed: { readonly id: string; readonly name: string },
  rows: readonly LaidRow[],
  naming: RowNaming,
  plane: Plane,
  newId: () => string,
): Edits {
  const names = rowNames(bed.name, rows, naming)
  return rows.map(({ line, side, bearingDeg }, n) => ({
    do: 'add' as const,
    kind: 'rows',
    record: {
      id: newId(),
      extra: {},
      bed: bed.id,
      name: names[n]!,
      side: sideWords(bearingDeg)[side],
      geom: geometryOf({ type: 'LineString', parts: [line] }, plane),
    },
  }))
}

/** What was laid out, to be shown on the map before it is kept. */
export function proposedOf(
  beds: readonly (readonly (readonly [number, number])[])[],
  rows: readonly LaidRow[],
  plane: Plane,
): Proposed {
  const places = (line: readonly (readonly [number, number])[]) => line.map((at) => [...plane.toLonLat(at)])
  return {
    type: 'FeatureCollection',
    features: [
      ...beds.map((ring) => ({
        type: 'Feature' as const,
        geometry: { type: 'Polygon' as const, coordinates: [places([...ring, ring[0]!])] },
        properties: { as: 'bed' as const },
      })),
      ...rows.map(({ line }) => ({
        type: 'Feature' as const,
        geometry: { type: 'LineString' as const, coordinates: places(line) },
        properties: { as: 'row' as const },
      })),
    ],
  }
}
