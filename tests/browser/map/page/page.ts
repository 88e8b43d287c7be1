import type { LonLat } from '../../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../../geo/plane/plane.ts'
import type { Finished, LiveMeasures, PlacedThing, Session, Tool } from '../../../../src/draw/session.ts'
import { ALL_SNAPS, type Segment, type Snaps } from '../../../../src/draw/snap.ts'
import { startSession } from '../../../../src/draw/startSession.ts'
import type { FarmMapEvents, Thing } from '../../../../src/map/farmMap.ts'
import { makeMap } from '../../../../src/map/makeMap.ts'
import { inventedFarm } from '../inventedFarm.ts'

/** The map in a page of its own, with what the tests call by name and what the map told. */
const asked = new URLSearchParams(location.search)
const farm = inventedFarm([Number(asked.get('lon') ?? -2.31), 52.19], Number(asked.get('beds') ?? 0))
const map = makeMap(document.getElementById('map')!, {
  sheet: 'ground',
  look: 'day',
  today: '2026-07-01',
  label: 'Map of the farm',
  reducedMotion: true,
})
const told = {
  picks: [] as FarmMapEvents['pick'][],
  hover: null as FarmMapEvents['hover'],
  views: 0,
  faults: [] as string[],
  live: null as LiveMeasures | null,
  finished: null as Finished | null,
  cancelled: 0,
  selected: [] as readonly Thing[],
  edge: null as Segment | null,
}
map.on('pick', (pick) => told.picks.push(pick))
map.on('hover', (hover) => {
  told.hover = hover
})
map.on('view', () => {
  told.views++
})
map.on('fault', ({ detail }) => told.faults.push(detail))

/** What a person would have chosen beside the map. */
const choices = {
  snaps: ALL_SNAPS as Snaps,
  keepsSquare: false,
  along: [] as readonly PlacedThing[],
  boxes: false,
}

const page = {
  choices,
  map,
  farm,
  told,
  session: null as Session | null,
  draw(tool: Tool, origin: LonLat | null): void {
    told.live = null
    told.finished = null
    page.session = startSession(map, tool, origin, {
      onMeasure: (measures) => {
        told.live = measures
      },
      onFinish: (finished) => {
        told.finished = finished
        return undefined
      },
      onCancel: () => {
        told.cancelled++
      },
      showLength: (lengthM) => `${lengthM.toFixed(2)} m`,
      snaps: () => choices.snaps,
      keepsSquare: () => choices.keepsSquare,
      along: () => choices.along,
      boxes: () => choices.boxes,
      onSelect: (things) => {
        told.selected = things
      },
      onEdge: (edge) => {
        told.edge = edge
      },
    })
  },
  /** All as it was when the page was opened, looking at a box in the plane. */
  async anew(southWest: readonly [number, number], northEast: readonly [number, number]): Promise<void> {
    page.session?.cancel()
    Object.assign(choices, { snaps: ALL_SNAPS, keepsSquare: false, along: [], boxes: false })
    Object.assign(told, { picks: [], live: null, finished: null, cancelled: 0, selected: [], edge: null })
    await map.setLayers(farm.layers)
    map.fitTo({ southWest: farm.plane.toLonLat(southWest), northEast: farm.plane.toLonLat(northEast) })
    await map.picture()
  },
  /** Where a place of the farm's plane is on the page. */
  pixel(eastM: number, northM: number): [number, number] {
    const { x, y } = map.drawing.map.project([...farm.plane.toLonLat([eastM, northM])] as [number, number])
    return [x, y]
  },
  planeAbout,
}
export type TestPage = typeof page
declare global {
  interface Window {
    page: TestPage
  }
}
window.page = page
