import { computed } from '@preact/signals'
import { bringing } from '../state/bringing.ts'
import { openFarm } from '../state/farm.ts'
import { photos } from '../state/photos.ts'
import { sheet, view } from '../state/where.ts'
import { placing } from './placing/state.ts'

/** Looking from farther than this, where a phone’s width is some twenty kilometres, nobody draws a field. */
const NEAR_ENOUGH_ZOOM = 10

/** Nothing says yet where the farm lies, and the map looks at no place: what is drawn now would lie anywhere. */
export const isNowhere = computed(
  () =>
    sheet.value === 'ground' &&
    openFarm.value?.origin === null &&
    photos.value.length === 0 &&
    placing.value === null &&
    bringing.value === null &&
    (view.value?.zoom ?? 0) < NEAR_ENOUGH_ZOOM,
)
