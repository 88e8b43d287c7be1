import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type MapSite, makeMapSite } from '../browser/map/openMapPage.ts'
import { ms, useFigures } from './figures.ts'

const POLYGONS = 10_000
/** A frame of the page's own work must leave room in the 16.7 ms that a screen gives it. */
const OWN_MS = 16
const FRAMES = 40

const ranked = (times: readonly number[]) => [...times].sort((a, b) => a - b)
const told = (times: readonly number[]) => {
  const all = ranked(times)
  return `${ms(all[Math.floor(all.length / 2)]!)} in the middle, ${ms(all[Math.floor(all.length * 0.95)]!)} at 95 of 100`
}
const at95 = (times: readonly number[]) => ranked(times)[Math.floor(times.length * 0.95)]!

describe(`a map of ${POLYGONS} polygons, all in sight`, () => {
  const tell = useFigures()
  let site: MapSite
  let page: Page
  beforeAll(async () => {
    site = await makeMapSite({ painted: true })
    const open = await site.open({ viewport: { width: 1440, height: 900 } }, `?beds=${POLYGONS}`)
    page = open.page
    await page.evaluate(async () => {
      const { map, farm } = window.page
      await map.setLayers(farm.layers)
      map.fitTo(null)
      await map.picture()
    })
    await page.evaluate(`globalThis.frames = async (each, count) => {
      const [own, between] = [[], []]
      let last = null
      for (let n = 0; n < count; n++) await new Promise((next) => requestAnimationFrame(() => {
        const begun = performance.now()
        if (last !== null) between.push(begun - last)
        last = begun
        each(n)
        own.push(performance.now() - begun)
        next()
      }))
      return { own, between }
    }`)
  })
  afterAll(() => site?.close())

  /** Frame after frame: how long our own work took in each, and how long from one to the next. */
  const frames = (each: string) =>
    page.evaluate(`frames(${each}, ${FRAMES})`) as Promise<{ own: number[]; between: number[] }>
  const PAN = `(n) => page.map.drawing.map.panBy([n % 2 ? 7 : -7, n % 2 ? 5 : -5], { animate: false })`
  /** What the pointer does while a corner is brought about, as it comes to the page. */
  const POINT = `(n) => {
    const ground = page.map.drawing.map.getCanvasContainer()
    const box = ground.getBoundingClientRect()
    const [x, y] = [box.left + 300 + n * 17, box.top + 250 + n * 9]
    ground.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, pointerType: 'mouse', clientX: x, clientY: y, pointerId: 1 }))
  }`

  it('pans, and is drawn upon with everything snapping, with little work of the page’s own in a frame', async () => {
    const count = await page.evaluate(() => window.page.farm.layers.beds.features.length)
    expect(count).toBeGreaterThanOrEqual(POLYGONS)
    const pan = await frames(PAN)
    await page.evaluate(() => window.page.draw({ do: 'draw', what: 'field' }, window.page.farm.plane.origin))
    const first = await frames(POINT.replace('n * 17', 'n * 0'))
    const drawn = await frames(POINT)
    await page.evaluate(() => {
      window.page.session!.cancel()
      const { farm, draw } = window.page
      const bed = farm.layers.beds.features[70]!
      if (bed.geometry.type !== 'Polygon') throw new Error(bed.geometry.type)
      draw({ do: 'edit', kind: 'beds', id: bed.properties.id, geometry: bed.geometry }, farm.plane.origin)
    })
    const edited = await frames(POINT)
    await page.evaluate(() => {
      window.page.session!.cancel()
      const { farm, draw } = window.page
      const things = farm.layers.beds.features
        .slice(0, 500)
        .map(({ properties, geometry }) => ({ kind: 'beds' as const, id: properties.id, geometry }))
      draw({ do: 'move', things }, farm.plane.origin)
      window.page.session!.type('turnDeg', 1)
    })
    const together = await frames('(n) => page.session.type("turnDeg", n / 10)')
    await page.evaluate(() => window.page.session!.cancel())
    // The same again with no triangles filled: there is no graphics processor here.
    await page.evaluate('WebGL2RenderingContext.prototype.drawElements = () => {}')
    const unfilled = await frames(PAN)
    await page.evaluate(async () => {
      const { map, farm } = window.page
      const bare = Object.entries(farm.layers).map(([name, layer]) => [name, { ...layer, features: [] }])
      await map.setLayers(Object.fromEntries(bare) as typeof farm.layers)
    })
    const empty = await frames(PAN)

    tell('panning: from frame to frame, triangles filled by the cores', told(pan.between), '')
    tell('panning: the same with none filled', told(unfilled.between), '')
    tell('panning: an empty map, none filled', told(empty.between), '')
    tell('panning: the page’s own work in a frame', told(pan.own), `< ${ms(OWN_MS)}`)
    tell('the first move of the pointer, which makes the index of edges', ms(first.own[0]!), '')
    tell('drawing: the page’s own work in a frame', told(drawn.own), `< ${ms(OWN_MS)}`)
    tell('reshaping one: the same', told(edited.own.slice(1)), `< ${ms(OWN_MS)}`)
    tell('turning 500 together: the same', told(together.own), '')
    expect(at95(pan.own)).toBeLessThan(OWN_MS)
    expect(at95(drawn.own)).toBeLessThan(OWN_MS)
    expect(at95(edited.own.slice(1))).toBeLessThan(OWN_MS)
  })
})
