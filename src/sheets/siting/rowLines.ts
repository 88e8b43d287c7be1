import { computed } from '@preact/signals'
import type { Polygon } from 'geojson'
import type { LonLat, Metres } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import { runAlong } from '../../../geo/siting/runAlong.ts'
import { type Side, sideLine } from '../../../geo/supports/sideLine.ts'
import { sidesOf } from '../ground/sideOf.ts'
import { openFarm } from '../state/farm.ts'
import { layers, measured } from '../state/shown.ts'

const plane = computed<Plane | null>(() => {
  const origin = openFarm.value?.origin
  return origin ? planeAbout(origin) : null
})

/** Outlines of beds in the plane, by id. */
const outlines = computed<ReadonlyMap<string, readonly Metres[]>>(() => {
  const about = plane.value
  return new Map(
    (layers.value?.beds.features ?? []).flatMap(({ geometry, properties }) =>
      about && geometry.type === 'Polygon'
        ? [
            [
              properties.id,
              (geometry as Polygon).coordinates[0]!.slice(0, -1).map((at) => about.toMetres([at[0]!, at[1]!])),
            ] as const,
          ]
        : [],
    ),
  )
})

/** The line along a side of a bed, in lon/lat; null where the bed is not there any more. */
export function rowLine(bed: string, side: Side): readonly [LonLat, LonLat] | null {
  const outline = outlines.value.get(bed)
  const line = outline && plane.value ? sideLine(outline, side) : null
  return line && plane.value ? [plane.value.toLonLat(line[0]), plane.value.toLonLat(line[1])] : null
}

/** Permanent supports that stand on the day shown, in the plane. */
const permanentRuns = computed<readonly { readonly line: readonly Metres[] }[]>(() => {
  const about = plane.value
  return (layers.value?.supports.features ?? []).flatMap(({ geometry, properties }) =>
    about && properties.permanent && geometry.type === 'LineString'
      ? [{ line: geometry.coordinates.map((at) => about.toMetres([at[0]!, at[1]!])) }]
      : [],
  )
})

/** Whether a permanent support stands along a side of a bed on the day shown. */
export function rowStands(bed: string, side: Side): boolean {
  const outline = outlines.value.get(bed)
  const line = outline && sideLine(outline, side)
  return line ? runAlong(line, permanentRuns.value) !== undefined : false
}

/** A side of a bed by compass: looking along a bearing, the left is north of a bed that runs east, west of one that runs north. */
export function sideWords(bed: string, side: Side): string {
  const bearing = measured.value?.beds.find(({ id }) => id === bed)?.bearing_deg ?? 0
  const [first, middle, last] = sidesOf(bearing)
  if (side === 'middle') return middle
  const southward = first.startsWith('west') && bearing > 90
  return (side === 'left') !== southward ? first : last
}

/** Where a lot stands, by its bed and, where it is told, its row. */
export function lotPlace({ bed, row }: { readonly bed: string; readonly row: string | null }): string {
  const found = layers.value?.rows.features.find(({ properties }) => properties.id === row)?.properties
  return row === null ? bedName(bed) : `${bedName(bed)}, ${found?.side ?? found?.name ?? 'row'}`
}

export const bedName = (bed: string): string => measured.value?.beds.find(({ id }) => id === bed)?.name ?? bed
