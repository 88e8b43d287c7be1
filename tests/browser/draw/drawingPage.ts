import type { BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, expect } from 'vitest'
import type { Tool } from '../../../src/draw/session.ts'
import { type MapSite, makeMapSite } from '../map/openMapPage.ts'

/** The part of the invented farm that the tests draw over, in metres of its plane: bare ground north-west of Weir Piece's corner at 0, 0. */
const VIEW = { southWest: [-8, -8], northEast: [32, 18] } as const
export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 }

/** Does the work of a test on the map's page, at a desk or as `options` have it, and finds no complaint. */
export type OnPage = (work: (page: Page) => Promise<void>, options?: BrowserContextOptions) => Promise<void>

/** Builds and serves the map's page once for all the tests of a file. */
export function drawingPage(): OnPage {
  let site: MapSite
  beforeAll(async () => {
    site = await makeMapSite()
  })
  afterAll(() => site?.close())

  /** One page a size for all the tests of this file, put back as it was before each. */
  const pages = new Map<string, Awaited<ReturnType<MapSite['open']>>>()
  const on = async (work: (page: Page) => Promise<void>, options?: BrowserContextOptions) => {
    const size = options ? 'phone' : 'desk'
    const open = pages.get(size) ?? (await site.open(options))
    pages.set(size, open)
    const { page, complaints } = open
    await page.bringToFront()
    await page.mouse.move(2, 2)
    await page.evaluate(({ southWest, northEast }) => window.page.anew(southWest, northEast), VIEW)
    await work(page)
    expect(complaints).toEqual([])
    expect(await page.evaluate(() => window.page.told.faults)).toEqual([])
  }
  return on
}

export const take = (page: Page, tool: Tool) =>
  page.evaluate((t) => window.page.draw(t, window.page.farm.plane.origin), tool)
export const pixel = (page: Page, east: number, north: number) =>
  page.evaluate(([e, n]) => window.page.pixel(e!, n!), [east, north])
export const click = async (page: Page, east: number, north: number) => {
  const at = await pixel(page, east, north)
  await page.mouse.move(...at)
  await page.mouse.click(...at)
}
export const live = (page: Page) => page.evaluate(() => window.page.told.live)
export const finished = (page: Page) => page.evaluate(() => window.page.told.finished)
/** Corners of the finished outline in metres, the first not repeated. */
export const corners = (page: Page) =>
  page.evaluate(() => {
    const geometry = window.page.told.finished?.geometry
    if (geometry?.type !== 'Polygon') throw new Error(`no polygon but ${geometry?.type}`)
    return geometry.coordinates[0]!.slice(0, -1).map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
  })
export const edit = (page: Page, id: string) =>
  page.evaluate((bed) => {
    const { farm, draw } = window.page
    const geometry = farm.layers.beds.features.find((f) => f.properties.id === bed)!.geometry
    if (geometry.type !== 'Polygon') throw new Error(geometry.type)
    draw({ do: 'edit', kind: 'beds', id: bed, geometry }, farm.plane.origin)
  }, id)
