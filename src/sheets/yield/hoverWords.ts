import { computed } from '@preact/signals'
import { areaFigure, densityFigure, massFigure, showNumber, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { hover } from '../state/mapHandle.ts'
import { yielded, yieldShown } from '../state/yields.ts'
import { featureAt } from './featureAt.ts'

/** What the Yield sheet tells of the place under the pointer. */
export const hoverWords = computed<readonly string[]>(() => {
  const at = hover.value?.at
  const view = yielded.value
  if (!at || !view) return []
  if (yieldShown.value === 'hot') {
    const standing = featureAt(view.stretches, at)?.standing
    if (standing === undefined) return []
    if (standing === null) return ['too little to tell']
    const side = standing.q > view.alpha ? 'as chance would have it' : standing.z < 0 ? 'cold' : 'hot'
    return [side, `z ${showNumber(standing.z, 2)}, q ${showNumber(standing.q, 3)}`]
  }
  const cell = featureAt(view.cells, at)
  if (!cell) return []
  const index = cell.index === null ? 'nothing expected here' : `index ${showNumber(cell.index, 2)}`
  const density = told(densityFigure(cell.kgPerM2, units.value))
  const grounds = `${told(massFigure(cell.kg, units.value))} on ${told(areaFigure(cell.areaM2, units.value))}`
  return yieldShown.value === 'index' ? [index, density, grounds] : [density, index, grounds]
})
