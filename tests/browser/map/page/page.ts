import { planeAbout } from '../../../../geo/plane/plane.ts'
import { makeMap } from '../../../../src/map/makeMap.ts'
import { inventedFarm } from '../inventedFarm.ts'

/** The map in a page of its own, with what the tests call by name. */
const farm = inventedFarm([-2.31, 52.19], Number(new URLSearchParams(location.search).get('beds') ?? 0))
const map = makeMap(document.getElementById('map')!, {
  sheet: 'ground',
  night: false,
  label: 'Map of the farm',
  reducedMotion: true,
})
const page = { map, farm, planeAbout }
export type TestPage = typeof page
declare global {
  interface Window {
    page: TestPage
  }
}
window.page = page
