import { computed } from '@preact/signals'
import type { Surface, Zones } from '../../map/farmMap.ts'
import { choose } from '../state/chosen.ts'
import { showPane } from '../state/pane.ts'
import { cellYields, chosenZone, pointsShow, yielded, yieldPoints, yieldShown } from '../state/yields.ts'
import { cellSurface, hotSurface } from './surfaceOf.ts'

const cellShapes = computed(() => yielded.value?.cells.map(({ geometry }) => geometry) ?? [])
const stretchShapes = computed(() => yielded.value?.stretches.map(({ geometry }) => geometry) ?? [])
const cellAreasM2 = computed(() => Float64Array.from(yielded.value?.cells ?? [], ({ properties }) => properties.areaM2))

/** A season's mean mass on the area of each cell, in kg/m². */
export const cellDensities = computed(() => {
  const areas = cellAreasM2.value
  const seasons = yielded.value?.seasons.length ?? 1
  return cellYields.value.kg.map((kg, k) => kg / areas[k]! / seasons)
})

/** What the cells tell of the index between the middles of stretches: it, or its standard error. Null while there is none. */
export const pointValues = computed(() => {
  const told = yieldPoints.value?.surface
  if (!told || told.values.length !== yielded.value?.cells.length) return null
  return pointsShow.value === 'error' ? told.errors : told.values
})

/** The yield surface, once it is reckoned. */
export const surface = computed<Surface | null>(() => {
  const view = yielded.value
  if (!view) return null
  switch (yieldShown.value) {
    case 'hot':
      return hotSurface(stretchShapes.value, view)
    case 'index':
      return cellSurface(cellShapes.value, 'par', cellYields.value.index)
    case 'density':
      return cellSurface(cellShapes.value, 'amount', cellDensities.value)
    case 'points':
      return (
        pointValues.value &&
        cellSurface(cellShapes.value, pointsShow.value === 'error' ? 'span' : 'par', pointValues.value)
      )
  }
})

/** Outlines of the low-yield zones. */
export const zones = computed<Zones | null>(() => {
  const features = yielded.value?.zones.map(({ id, outline }) => ({
    type: 'Feature' as const,
    geometry: outline,
    properties: { id },
  }))
  return features ? { type: 'FeatureCollection', features } : null
})

/** Opens a zone in the table, in place of any card. */
export function chooseZone(id: string | null): void {
  chosenZone.value = id
  if (id === null) return
  void choose(null)
  showPane('table')
}
