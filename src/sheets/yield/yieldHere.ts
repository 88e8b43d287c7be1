import { computed } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { areaFigure, densityFigure, massFigure, showNumber, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { hover, tapped } from '../state/mapHandle.ts'
import { measured } from '../state/shown.ts'
import { yielded, yieldShown } from '../state/yields.ts'
import { featureAt } from './featureAt.ts'

interface YieldPlace {
  readonly id: string
  readonly bed: string
  readonly words: readonly string[]
}

/** What the Yield sheet tells of the place under the pointer, and of the place tapped last. */
export const yieldHere = computed(() => yieldAt(hover.value?.at ?? null))
export const yieldTapped = computed(() => yieldAt(tapped.value))

/** The bed at a place, and the value there with its grounds. Null off the beds. */
function yieldAt(at: LonLat | null): YieldPlace | null {
  const view = yielded.value
  if (!at || !view) return null
  const inBed = (id: string, words: readonly string[]): YieldPlace => ({
    id,
    bed: measured.value?.beds.find((bed) => bed.id === id)?.name ?? id,
    words,
  })
  if (yieldShown.value === 'hot') {
    const stretch = featureAt(view.stretches, at)
    if (!stretch) return null
    const { bed, standing } = stretch
    if (standing === null) return inBed(bed, ['too little to tell'])
    const side = standing.q > view.alpha ? 'as chance would have it' : standing.z < 0 ? 'cold' : 'hot'
    return inBed(bed, [side, `z ${showNumber(standing.z, 2)}, q ${showNumber(standing.q, 3)}`])
  }
  const cell = featureAt(view.cells, at)
  if (!cell) return null
  const index = cell.index === null ? 'nothing expected here' : `index ${showNumber(cell.index, 2)}`
  const density = told(densityFigure(cell.kgPerM2, units.value))
  const grounds = `${told(massFigure(cell.kg, units.value))} on ${told(areaFigure(cell.areaM2, units.value))}`
  return inBed(cell.bed, yieldShown.value === 'index' ? [index, density, grounds] : [density, index, grounds])
}
