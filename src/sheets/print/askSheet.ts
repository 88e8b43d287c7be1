import { positionsOf } from '../../../geo/plane/geometry.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import type { DrawnMap } from '../../map/farmMap.ts'
import type { MapAsked, SheetAsked } from '../../print/page/sheetPages.ts'
import type { Titles } from '../../print/page/titleBlock.ts'
import { paperOf } from '../../print/paper.ts'
import { CAUTIONS } from '../cautions.ts'
import { grounds } from '../frame/grounds.ts'
import { SHEET_TITLE, sheetNumber } from '../names.ts'
import { showDay } from '../show/dates.ts'
import { showNumber, type Units } from '../show/figures.ts'
import { scaleBar } from '../show/scaleBar.ts'
import { openFarm, units } from '../state/farm.ts'
import { mapView } from '../state/mapHandle.ts'
import { on, sheet } from '../state/where.ts'
import { yieldShown } from '../state/yields.ts'
import type { Choices, Extent } from './choices.ts'
import { parLegend } from './parLegend.ts'
import { readLegend } from './readLegend.ts'
import { readPanel } from './readPanel.ts'

/** What the title block says of the sheet that is shown. */
export function titlesNow(): Titles {
  const { farm, entry } = openFarm.value!
  return {
    farm: farm.name,
    sheet: `Sheet ${sheetNumber(sheet.value)}, ${SHEET_TITLE[sheet.value]}`,
    day: showDay(on.value),
    invented: entry.invented && !/invented/i.test(farm.name) ? 'Invented: no such farm' : null,
    cautions: [...(grounds.value === null ? [] : [grounds.value]), ...CAUTIONS[sheet.value]],
  }
}

/** The sheet that is shown, as it stands, to be laid on paper as chosen. */
export function askSheet(choices: Choices, drawn: DrawnMap): SheetAsked {
  const { paper, lie, withMap, withTable, withLegend, black } = choices
  const legend = withLegend && withMap ? readLegend(document.querySelector('.map-pane .legend')) : []
  const aboutPar = sheet.value === 'yield' && drawn.ramp.of === 'par'
  const panel = document.querySelector<HTMLElement>('.table-pane')
  return {
    paper: paperOf(paper, lie),
    titles: titlesNow(),
    legend: aboutPar && legend.length > 0 ? parLegend(legend, yieldShown.value === 'hot', black) : legend,
    map: withMap ? askMap(choices, drawn) : null,
    table: withTable && panel ? readPanel(panel) : [],
    black,
  }
}

/** The farm's plane, or null while nothing has been drawn. */
export function planeNow(): Plane | null {
  const origin = openFarm.value?.origin
  if (!origin) return null
  if (known?.origin[0] !== origin[0] || known.origin[1] !== origin[1]) known = planeAbout(origin)
  return known
}
let known: Plane | null = null

function askMap(choices: Choices, drawn: DrawnMap): MapAsked | null {
  const plane = planeNow()
  if (!plane) return null
  const { extent, scale, turned } = choices
  const view = extent === 'view' ? mapView.value : null
  return {
    drawn: choices.withPhotos ? drawn : { ...drawn, photos: [] },
    plane,
    extent: placesOf(extent, drawn, plane),
    scale,
    upDeg: turned ? 'fit' : (view?.bearingDeg ?? 0),
    units: units.value,
    bar: (metresPerMm, mostMm) => barOf(metresPerMm, mostMm, units.value),
    scaleWords: (n) => scaleWords(n, units.value),
  }
}

export function barOf(metresPerMm: number, mostMm: number, as: Units) {
  const { widthPx, half, whole } = scaleBar(metresPerMm, mostMm, as)
  return { lengthMm: widthPx, half, whole }
}

/** As an engineer's rule has it, where the units are feet and the feet are whole. */
export function scaleWords(scale: number, as: Units): string | null {
  return as === 'us' && scale % 12 === 0 ? `1 inch = ${showNumber(scale / 12, 0)} ft` : null
}

const ON_THE_FARM = ['fields', 'beds', 'rows', 'canopies', 'trees', 'supports', 'structures'] as const

/** Places that must be on the map. */
function placesOf(extent: Extent, { sources }: DrawnMap, plane: Plane): readonly Metres[] {
  if (extent === 'view') return viewCorners(plane)
  const of =
    extent === 'farm'
      ? ON_THE_FARM.flatMap((name) => sources[name]?.features ?? [])
      : (sources.fields?.features ?? []).filter(({ properties }) => properties?.id === extent.field)
  return of.flatMap(({ geometry }) => [...positionsOf(geometry)].map(([lon, lat]) => plane.toMetres([lon!, lat!])))
}

/** The corners of the ground that the screen shows. */
function viewCorners(plane: Plane): readonly Metres[] {
  const view = mapView.value
  const canvas = document.querySelector('.map-canvas')
  if (!view || !canvas) return []
  const [e, n] = plane.toMetres(view.centre)
  const [across, along] = [
    ((canvas.clientWidth || 600) * view.metresPerPixel) / 2,
    ((canvas.clientHeight || 400) * view.metresPerPixel) / 2,
  ]
  const rad = (view.bearingDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(rad), Math.sin(rad)]
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([a, b]): Metres => {
    const [x, y] = [a! * across, b! * along]
    return [e + x * cos + y * sin, n - x * sin + y * cos]
  })
}
