import { computed } from '@preact/signals'
import type { MultiPolygon, Polygon } from 'geojson'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import { rayTo } from '../../../geo/sun/isShaded.ts'
import type { TreeYears } from '../../desk/door.ts'
import type { Siting, Surface } from '../../map/farmMap.ts'
import { openFarm } from '../state/farm.ts'
import { layers } from '../state/shown.ts'
import { canopies, casters, sitingShown, sunLost, yearsOn } from '../state/siting.ts'
import { planLookedAt, planYear } from '../state/sitingPlan.ts'
import { sheet } from '../state/where.ts'
import { roundUp } from '../yield/rampOf.ts'
import { daySun } from './daySun.ts'
import { rowLine } from './rowLines.ts'
import { rowPieces } from './rowPieces.ts'
import { area, shadowPieces } from './shadowPieces.ts'

type Piece = Siting['features'][number]

const plane = computed<Plane | null>(() => {
  const origin = openFarm.value?.origin
  return origin ? planeAbout(origin) : null
})

/** What the Siting sheet lays over the plan. */
export const onSitingMap = computed<Siting | null>(() => {
  if (sheet.value !== 'siting' || !plane.value) return null
  const features = piecesOf(plane.value)
  return { type: 'FeatureCollection', features }
})

function piecesOf(about: Plane): Piece[] {
  switch (sitingShown.value) {
    case 'plan':
      return rowPieces(
        planLookedAt.value,
        planYear.value,
        bedShapes().map(({ id }) => id),
        rowLine,
      )
    case 'shadows':
      return shadows(about)
    case 'canopies':
      return rings(about)
    default:
      return []
  }
}

function shadows(about: Plane): Piece[] {
  const ray = daySun.value?.high ? rayTo(daySun.value.sun) : null
  return ray && casters.value ? shadowPieces(casters.value.told, ray, about) : []
}

const CORNERS = 64

/** Canopies, root reach and the beds under canopy, so many years on. */
function rings(about: Plane): Piece[] {
  const told = canopies.value
  if (!told) return []
  const n = Math.min(yearsOn.value, told.years.length - 1)
  const circle = ({ at }: TreeYears, radiusM: number, as: 'canopy' | 'reach'): Piece[] => {
    if (!(radiusM > 0)) return []
    const [x, y] = about.toMetres(at)
    const corner = (k: number): Metres => {
      const turn = (2 * Math.PI * k) / CORNERS
      return [x + radiusM * Math.cos(turn), y + radiusM * Math.sin(turn)]
    }
    return [
      area(
        Array.from({ length: CORNERS }, (_, k) => corner(k)),
        as,
        about,
      ),
    ]
  }
  const under = new Set(
    told.under.flatMap((one) => (one.canopyFrom !== null && one.canopyFrom <= told.years[n]! ? [one.bed] : [])),
  )
  return [
    ...bedShapes().flatMap(({ id, geometry }): Piece[] =>
      under.has(id) ? [{ type: 'Feature', geometry, properties: { as: 'under' } }] : [],
    ),
    ...told.trees.flatMap((tree) => [
      ...circle(tree, tree.canopyM[n]!, 'canopy'),
      ...(tree.source ? circle(tree, tree.reachM[n]!, 'reach') : []),
    ]),
  ]
}

const bedShapes = () =>
  (layers.value?.beds.features ?? []).map(({ geometry, properties }) => ({
    id: properties.id,
    geometry: geometry as Polygon | MultiPolygon,
  }))

/** The most that any bed loses, for the ramp. */
export const mostLost = computed(() => {
  const most = Math.max(0, ...(sunLost.value?.beds.map(({ lostHours }) => lostHours) ?? []))
  return most > 0 ? roundUp(most) : null
})

/** Beds by the hours of direct sun that they lose. */
export const lostSurface = computed<Surface | null>(() => {
  const most = mostLost.value
  if (sitingShown.value !== 'lost' || most === null) return null
  const shapes = bedShapes()
  const byBed = new Map(sunLost.value?.beds.map(({ bed, lostHours }) => [bed, lostHours]))
  return {
    ramp: { of: 'amount', most },
    pieces: shapes.map(({ geometry }) => geometry),
    values: shapes.map(({ id }) => byBed.get(id) ?? Number.NaN),
  }
})
