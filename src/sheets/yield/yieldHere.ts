import { computed } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { areaFigure, densityFigure, massFigure, showNumber, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { hover, tapped } from '../state/mapHandle.ts'
import { measured } from '../state/shown.ts'
import { cellYields, yielded, yieldPoints, yieldShown } from '../state/yields.ts'
import { featureAt } from './featureAt.ts'
import { restsWords } from './groundWords.ts'
import { cellDensities, pointValues } from './onMap.ts'

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
    const k = featureAt(view.stretches, at)
    if (k === null) return null
    const { bed, standing } = view.stretches[k]!.properties
    if (standing === null) return inBed(bed, ['too little to tell'])
    const side = standing.q > view.alpha ? 'as chance would have it' : standing.z < 0 ? 'cold' : 'hot'
    return inBed(bed, [side, `z ${showNumber(standing.z, 2)}, q ${showNumber(standing.q, 3)}`])
  }
  const k = featureAt(view.cells, at)
  if (k === null) return null
  const { bed, areaM2, rests } = view.cells[k]!.properties
  if (yieldShown.value === 'points') return inBed(bed, pointWords(k))
  const inCell = cellYields.value.index[k]!
  const index = Number.isNaN(inCell) ? 'nothing expected here' : `index ${showNumber(inCell, 2)}`
  const density = told(densityFigure(cellDensities.value[k]!, units.value))
  const grounds = `${told(massFigure(cellYields.value.kg[k]!, units.value))} on ${told(areaFigure(areaM2, units.value))}`
  const [first, second] = yieldShown.value === 'index' ? [index, density] : [density, index]
  return inBed(bed, [first!, second!, grounds, restsWords(rests)])
}

/** The index at a cell as the places about it tell it, with its standard error where it has one. */
function pointWords(k: number): readonly string[] {
  const surface = yieldPoints.value?.surface
  if (!surface || !pointValues.value) return ['not reckoned yet']
  const error = surface.errors?.[k]
  return [
    `index ${showNumber(surface.values[k]!, 2)}${error === undefined ? '' : `, give or take ${showNumber(error, 2)}`}`,
    'told from places about it',
  ]
}
