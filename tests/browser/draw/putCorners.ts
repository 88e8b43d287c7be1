import { expect, it } from 'vitest'
import { click, corners, finished, live, type OnPage, PHONE, pixel, take } from './drawingPage.ts'

/** What stands nowhere yet is drawn, corner by corner. */
export function putsCornersDown(on: OnPage): void {
  it('makes a bed of three clicks, its measures told all the while and the same when it is done', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'bed' })
      await click(page, -4, 12)
      await page.mouse.move(...(await pixel(page, 16, 13)))
      const half = (await live(page))!
      // By hand: √(20² + 1²) m, at atan2(20, 1) from north; the mouse comes to within a pixel.
      expect(half.lengthM).toBeCloseTo(Math.hypot(20, 1), 1)
      expect(half.bearingDeg).toBeCloseTo((Math.atan2(20, 1) * 180) / Math.PI, 0)
      expect(half).toMatchObject({ corners: 1, areaM2: null, widthM: null, problem: 'too few corners' })
      await page.mouse.click(...(await pixel(page, 16, 13)))
      await page.mouse.move(...(await pixel(page, 16, 14.2)))
      const whole = (await live(page))!
      expect(whole.widthM!).toBeCloseTo(1.2 * Math.cos(Math.atan2(1, 20)), 1)
      expect(whole.areaM2!).toBeCloseTo(whole.lengthM! * whole.widthM!, 9)
      expect(whole).toMatchObject({ corners: 2, problem: null })
      await page.mouse.click(...(await pixel(page, 16, 14.2)))
      const { measures } = (await finished(page))!
      expect(Math.abs(measures.areaM2! / whole.areaM2! - 1)).toBeLessThan(1e-8)
      expect(Math.abs(measures.lengthM! / whole.lengthM! - 1)).toBeLessThan(1e-9)
      const ring = await corners(page)
      for (let i = 0; i < 4; i++) {
        const [a, b, c] = [ring[i]!, ring[(i + 1) % 4]!, ring[(i + 2) % 4]!]
        const dot = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
        expect(Math.abs(dot)).toBeLessThan(1e-6)
      }
      await expect.poll(() => page.locator('svg.sketch').count(), { timeout: 10_000 }).toBe(0)
    }))

  it('makes a bed of three taps', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'bed' })
      for (const [e, n] of [
        [-4, 12],
        [14, 12],
        [5, 14],
      ] as const)
        await page.touchscreen.tap(...(await pixel(page, e, n)))
      await expect.poll(() => finished(page)).not.toBeNull()
      const { measures } = (await finished(page))!
      expect(measures.lengthM!).toBeGreaterThan(17.7)
      expect(measures.lengthM!).toBeLessThan(18.3)
      expect(measures.widthM!).toBeGreaterThan(1.8)
      expect(measures.widthM!).toBeLessThan(2.2)
      expect(await page.evaluate(() => window.page.told.picks)).toEqual([])
    }, PHONE))

  it('makes a bed with the keyboard alone', () =>
    on(async (page) => {
      const metresPerPixel = await page.evaluate(() => window.page.map.getView().metresPerPixel)
      await take(page, { do: 'draw', what: 'bed' })
      const press = async (key: string, times: number) => {
        for (let i = 0; i < times; i++) await page.keyboard.press(key)
      }
      await press('ArrowUp', 25)
      await press('Enter', 1)
      await press('ArrowRight', 30)
      await press('Enter', 1)
      await press('Shift+ArrowUp', 7)
      await press('ArrowUp', 3)
      await press('Enter', 1)
      const { measures } = (await finished(page))!
      // 300 px along and 37 px across, to within the pixel's own 0.34 %.
      expect(Math.abs(measures.lengthM! / (300 * metresPerPixel) - 1)).toBeLessThan(0.004)
      expect(Math.abs(measures.widthM! / (37 * metresPerPixel) - 1)).toBeLessThan(0.004)
      expect(measures.bearingDeg).toBeCloseTo(90, 3)
    }))

  it('takes typed lengths exactly', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'bed' })
      await click(page, -4, 12)
      await page.mouse.move(...(await pixel(page, 9, 13)))
      await page.evaluate(() => window.page.session!.type('lengthM', 23.75))
      expect(await live(page)).toMatchObject({ snapped: 'typed', segmentM: expect.closeTo(23.75, 9) })
      await page.evaluate(() => {
        window.page.session!.putCorner()
        window.page.session!.type('widthM', 0.8)
        window.page.session!.putCorner()
      })
      const { measures } = (await finished(page))!
      expect(Math.abs(measures.lengthM! / 23.75 - 1)).toBeLessThan(1e-9)
      expect(Math.abs(measures.widthM! / 0.8 - 1)).toBeLessThan(1e-8)
    }))

  it('snaps to a corner that stands, exactly, and with Alt held does not', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'field' })
      const [x, y] = await pixel(page, 0, 0)
      await page.mouse.move(x - 6, y - 5)
      expect(await live(page)).toMatchObject({ snapped: 'corner' })
      await page.keyboard.down('Alt')
      await page.mouse.move(x - 7, y - 5)
      expect(await live(page)).toMatchObject({ snapped: null })
      await page.keyboard.up('Alt')
      await page.mouse.move(x - 6, y - 5)
      await page.mouse.click(x - 6, y - 5)
      await click(page, -5, 12)
      await click(page, 6, 13)
      await page.mouse.click(x - 2, y - 2)
      const ring = await corners(page)
      const nearest = Math.min(...ring.map(([e, n]) => Math.hypot(e, n)))
      expect(nearest).toBeLessThan(1e-8)
      expect(ring).toHaveLength(3)
    }))

  it('tells of an outline that crosses itself, keeps it open, and takes corners back', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'field' })
      for (const [e, n] of [
        [-4, 8],
        [6, 14],
        [6, 9],
        [-4, 13],
      ] as const)
        await click(page, e, n)
      await page.mouse.move(...(await pixel(page, -4, 8)))
      expect(await page.evaluate(() => window.page.session!.finish())).toBe('crosses itself')
      expect(await finished(page)).toBeNull()
      await page.mouse.move(...(await pixel(page, 1, 15)))
      expect(await live(page)).toMatchObject({ problem: 'crosses itself', corners: 4 })
      await page.keyboard.press('Backspace')
      expect(await live(page)).toMatchObject({ corners: 3 })
      expect(await page.evaluate(() => window.page.session!.finish())).toBeNull()
      const ring = await corners(page)
      expect(ring).toHaveLength(3)
      // Counterclockwise by the shoelace.
      const twice = ring.reduce((sum, [x, y], i) => {
        const [u, v] = ring[(i + 1) % ring.length]!
        return sum + x * v - u * y
      }, 0)
      expect(twice).toBeGreaterThan(0)
    }))

  it('ends a row with a double click, and a tree with one', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'row' })
      await click(page, -4, 12)
      const end = await pixel(page, 10, 12)
      await page.mouse.move(...end)
      await page.mouse.dblclick(...end)
      const row = (await finished(page))!
      expect(row.geometry.type).toBe('LineString')
      expect(row.measures.lengthM!).toBeCloseTo(14, 1)
      expect(await page.evaluate(() => window.page.map.drawing.map.isMoving())).toBe(false)
      await take(page, { do: 'draw', what: 'tree' })
      await click(page, -4, 12)
      expect((await finished(page))!.geometry.type).toBe('Point')
    }))

  it('gives up with Escape, and then the map is as before', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'field' })
      await click(page, -4, 12)
      await page.keyboard.press('Escape')
      const after = await page.evaluate(() => ({
        cancelled: window.page.told.cancelled,
        finished: window.page.told.finished,
        sketches: document.querySelectorAll('svg.sketch').length,
        picks: window.page.told.picks.length,
      }))
      expect(after).toEqual({ cancelled: 1, finished: null, sketches: 0, picks: 0 })
      await click(page, -4, 12)
      await expect.poll(() => page.evaluate(() => window.page.told.picks.length)).toBe(1)
    }))

  it('lets the map be moved between corners, which stay where they are', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'row' })
      await click(page, -4, 12)
      await page.mouse.move(600, 500)
      await page.mouse.down()
      await page.mouse.move(640, 540, { steps: 4 })
      await page.mouse.up()
      await page.evaluate(() => window.page.map.picture())
      await click(page, 10, 12)
      await page.keyboard.press('Enter')
      expect(await page.evaluate(() => window.page.session!.finish())).toBeNull()
      expect((await finished(page))!.measures.lengthM!).toBeCloseTo(14, 1)
    }))

  it('draws on a farm that has no plane yet, about its first corner', () =>
    on(async (page) => {
      await page.evaluate(() => window.page.draw({ do: 'draw', what: 'row' }, null))
      await click(page, -4, 12)
      await click(page, 10, 12)
      await page.evaluate(() => window.page.session!.finish())
      const { geometry, measures } = (await finished(page))!
      if (geometry.type !== 'LineString') throw new Error(geometry.type)
      const byFarm = await page.evaluate((line) => {
        const [a, b] = line.map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
        return Math.hypot(a![0] - b![0], a![1] - b![1])
      }, geometry.coordinates)
      expect(Math.abs(measures.lengthM! / byFarm - 1)).toBeLessThan(1e-7)
    }))
}
