import { longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { DrawnMap } from '../../map/farmMap.ts'
import {
  bestTurn,
  type Frame,
  type Spread,
  type STANDARD_SCALES,
  spreadOf,
  standardScale,
  tightestScale,
} from '../frame.ts'
import { drawMap } from '../map/drawMap.ts'
import { placer } from '../map/placer.ts'
import { shapesOf, touches } from '../map/shapes.ts'
import { type Box, boxMark, type Mark, type Page } from '../marks.ts'
import { type Paper, roomOn } from '../paper.ts'
import type { Type } from '../type/openFonts.ts'
import type { Block } from './blocks.ts'
import { flow } from './flow.ts'
import { inBlack } from './inBlack.ts'
import { INK } from './ink.ts'
import type { LegendItem } from './legend.ts'
import { columnsIn } from './listPages.ts'
import { type GridPage, mapGrid } from './mapGrid.ts'
import { indexMarks, joinMarks } from './mapIndex.ts'
import { footMm, runningFoot } from './runningFoot.ts'
import { type LaidBlock, layBlock, type PaperBar, type Titles } from './titleBlock.ts'

/** A map to be printed with its sheet. */
export interface MapAsked {
  readonly drawn: DrawnMap
  readonly plane: Plane
  /** What must be on the map. */
  readonly extent: readonly Metres[]
  /** N of 1:N; null for the largest standard scale at which the extent fits one page. */
  readonly scale: number | null
  /** Up on the page, clockwise from north; 'fit' turns a long field so that it fits larger. */
  readonly upDeg: number | 'fit'
  readonly units: keyof typeof STANDARD_SCALES
  bar(metresPerMm: number, mostMm: number): PaperBar
  scaleWords(scale: number): string | null
}

export interface SheetAsked {
  readonly paper: Paper
  readonly titles: Titles
  readonly legend: readonly LegendItem[]
  readonly map: MapAsked | null
  readonly table: readonly Block[]
  readonly black: boolean
}

/** A sheet laid on paper. Map pages come first, in the order of `frames`, after an index where there are several. */
export interface LaidSheet {
  readonly pages: readonly Page[]
  /** N of 1:N, or null without a map. */
  readonly scale: number | null
  /** Of each page, null for one without a map. */
  readonly frames: readonly (Frame | null)[]
}

/** Ground left free about the extent. */
const ROOM_MM = 5
const BAR_MM = 52
/** More than this is a slip of the pen. */
export const MOST_PAGES = 60

/** A sheet as pages, or in words why not. */
export function sheetPages(asked: SheetAsked, type: Type): LaidSheet | { readonly fault: string } {
  const { paper, titles, legend, map, table, black } = asked
  const room = roomOn(paper)
  const block = layBlock(titles, legend, type, paper.typeMm, room.wideMm)
  const box: Box = { ...room, highMm: room.highMm - block.highMm }
  const maps = map && box.highMm > 40 ? mapPages(map, box) : null
  if (map && !maps)
    return {
      fault:
        map.extent.length === 0
          ? 'There is nothing on the map to print yet.'
          : 'Legend and cautions leave no room for the map on this paper: take a larger one.',
    }
  if (maps && maps.grid.length > MOST_PAGES)
    return {
      fault: `At 1:${maps.scale} the map would take ${maps.grid.length} pages. Take a smaller scale, or larger paper.`,
    }
  const lists = table.length > 0 ? tablePages(asked, type, room) : []
  const sheets = maps ? maps.grid.length + (maps.index ? 1 : 0) : 0
  const total = sheets + lists.length
  const pages: Page[] = []
  const frames: (Frame | null)[] = []
  const add = (name: string, marks: readonly Mark[], frame: Frame | null) => {
    const { wideMm, highMm } = paper
    pages.push({ wideMm, highMm, name, marks: black ? inBlack(marks) : marks })
    frames.push(frame)
  }
  const pageOf = (name: string) => `${name === '' ? '' : `${name}, `}page ${pages.length + 1} of ${total}`
  if (map && maps) {
    const sheet = (frame: Frame, name: string, over: readonly Mark[]) =>
      add(
        name === '' ? 'Map' : name,
        [
          drawMap(map.drawn, map.plane, frame, type, black),
          ...over,
          ...blockMarks(block, map, frame, box, room, capital(pageOf(name))),
        ],
        frame,
      )
    if (maps.index)
      sheet(maps.index, `Index of maps at 1:${maps.scale}`, indexMarks(maps.index, maps.grid, paper.typeMm))
    for (const page of maps.grid)
      sheet(page.frame, maps.grid.length > 1 ? `Map ${page.name}` : '', joinMarks(page, maps.grid, paper.typeMm))
  }
  lists.forEach((marks, n) => {
    const foot = runningFoot(titles, capital(pageOf('')), type, paper.typeMm, room)
    add(`Table ${n + 1}`, [...marks, ...foot], null)
  })
  return { pages, frames, scale: maps?.scale ?? null }
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

interface Maps {
  readonly grid: readonly GridPage[]
  readonly index: Frame | null
  readonly scale: number
}

function mapPages({ drawn, plane, extent, scale: wanted, upDeg, units }: MapAsked, box: Box): Maps | null {
  const axis = longAxis(extent)
  const axisDeg = axis ? (Math.atan2(axis.ux, axis.uy) * 180) / Math.PI : null
  const up = upDeg === 'fit' ? bestTurn(extent, axisDeg, box, ROOM_MM) : upDeg
  const spread = spreadOf(extent, up)
  if (!spread) return null
  const whole = standardScale(tightestScale(spread, box, ROOM_MM), units)
  const scale = wanted ?? whole
  const all = mapGrid(spread, box, scale, ROOM_MM)
  // Beyond the limit pages are only counted.
  const grid =
    all.length > 1 && all.length <= 2 * MOST_PAGES ? all.filter(({ frame }) => shows(drawn, plane, frame)) : all
  const index: Frame | null =
    grid.length > 1 ? { box, centre: spread.centre, scale: indexScale(spread, grid, box, units), upDeg: up } : null
  return { grid, index, scale }
}

/** The scale at which every page of the grid shows on the index. */
function indexScale(spread: Spread, grid: readonly GridPage[], box: Box, units: MapAsked['units']): number {
  const columns = Math.max(...grid.map(({ column }) => column)) + 1
  const rows = Math.max(...grid.map(({ row }) => row)) + 1
  const mPerMm = grid[0]!.frame.scale / 1000
  const all = { ...spread, acrossM: columns * box.wideMm * mPerMm, alongM: rows * box.highMm * mPerMm }
  return standardScale(tightestScale(all, box, ROOM_MM), units)
}

const DRAWN_ON_PAGES = ['fields', 'beds', 'canopies', 'trees', 'supports', 'structures'] as const

/** Whether anything of the farm lies on a page. */
function shows({ sources }: DrawnMap, plane: Plane, frame: Frame): boolean {
  const place = placer(plane, frame)
  return DRAWN_ON_PAGES.some((name) =>
    sources[name]?.features.some(({ geometry }) =>
      shapesOf(geometry, place).some((shape) => touches(shape, frame.box, -1)),
    ),
  )
}

function blockMarks(block: LaidBlock, map: MapAsked, frame: Frame, box: Box, room: Box, page: string): Mark[] {
  const { scale, upDeg } = frame
  const at = { ...room, yMm: box.yMm + box.highMm, highMm: block.highMm }
  return [
    ...block.draw(at, {
      scale,
      scaleWords: map.scaleWords(scale),
      bar: map.bar(scale / 1000, BAR_MM),
      upDeg,
      page,
    }),
    boxMark(room, null, INK, 0.45),
  ]
}

function tablePages({ paper, table }: SheetAsked, type: Type, room: Box): Mark[][] {
  const body = { ...room, highMm: room.highMm - footMm(paper.typeMm) }
  return flow(table, type, paper.typeMm, body, columnsIn(body.wideMm))
}
