import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { dragByFinger } from '../pageActs.ts'
import { click, finished, live, type OnPage, PHONE, pixel, take } from './drawingPage.ts'

/** Things that stand are moved, turned, selected and brought along an edge. */
export function arranges(on: OnPage): void {
  const moved = (page: Page) =>
    page.evaluate(() => {
      const { farm, draw } = window.page
      const things = farm.layers.beds.features
        .slice(0, 2)
        .map(({ properties, geometry }) => ({ kind: 'beds' as const, id: properties.id, geometry }))
      draw({ do: 'move', things }, farm.plane.origin)
      const first = things[0]!.geometry
      if (first.type !== 'Polygon') throw new Error(first.type)
      return first.coordinates[0]!.map((p) => farm.plane.toMetres([p[0]!, p[1]!]))
    })
  const movedRing = (page: Page) =>
    page.evaluate(() => {
      const geometry = window.page.told.finished!.others[0]!.geometry
      if (geometry.type !== 'Polygon') throw new Error(geometry.type)
      return geometry.coordinates[0]!.map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
    })

  it('moves two beds together by drag and by keys, turns them by what is typed, and back again exactly', () =>
    on(async (page) => {
      const before = await moved(page)
      const grip = [before[0]![0] + 8, before[0]![1] + 2] as const
      await page.keyboard.down('Alt')
      await page.mouse.move(...(await pixel(page, ...grip)))
      await page.mouse.down()
      await page.mouse.move(...(await pixel(page, grip[0] - 5, grip[1] + 8)), { steps: 4 })
      await page.mouse.up()
      await page.keyboard.up('Alt')
      expect((await live(page))!.moved!.distanceM).toBeCloseTo(Math.hypot(5, 8), 0)
      await page.keyboard.press('ArrowUp')
      await page.keyboard.press('.')
      expect((await live(page))!.moved!.turnDeg).toBeCloseTo(1, 9)
      await page.evaluate(() => {
        const session = window.page.session!
        session.takeBack()
        session.takeBack()
        session.type('bearingDeg', 90)
        session.type('distanceM', 12.5)
        session.type('turnDeg', 30)
        session.type('turnDeg', 0)
        session.finish()
      })
      const after = await movedRing(page)
      after.forEach((p, i) => {
        expect(Math.hypot(p[0] - before[i]![0] - 12.5, p[1] - before[i]![1])).toBeLessThan(1e-7)
      })
      expect((await finished(page))!.others).toHaveLength(2)
    }))

  /** Drags the mark beyond two beds an eighth of the way round, clockwise, and tells by how much they are turned then. */
  const turned = async (
    page: Page,
    drag: (from: readonly [number, number], to: readonly [number, number]) => Promise<void>,
  ) => {
    await page.evaluate(async () => {
      window.page.map.fitTo(null)
      await window.page.map.picture()
    })
    await moved(page)
    const mark = await page.locator('svg.sketch .turn').boundingBox()
    const whole = await page.locator('svg.sketch .whole').boundingBox()
    const [x, y] = [mark!.x + mark!.width / 2, mark!.y + mark!.height / 2]
    const [u, v] = [whole!.x + whole!.width / 2, whole!.y + whole!.height / 2]
    await drag([x, y], [u + (v - y) * 0.7, v - (v - y) * 0.7])
    return (await live(page))!.moved!.turnDeg
  }

  it('turns two beds by the mark beyond them, by mouse', () =>
    on(async (page) => {
      const by = await turned(page, async (from, to) => {
        await page.mouse.move(...from)
        await page.mouse.down()
        await page.mouse.move(...to, { steps: 4 })
        await page.mouse.up()
      })
      expect(by).toBeCloseTo(45, 0)
    }))

  it('turns two beds by the mark beyond them, by a finger', () =>
    on(async (page) => {
      expect(await turned(page, (from, to) => dragByFinger(page, from, to))).toBeCloseTo(45, 0)
    }, PHONE))

  it('moves a bed by a finger', () =>
    on(async (page) => {
      const before = await moved(page)
      const [x, y] = await pixel(page, before[0]![0] + 6, before[0]![1] + 2)
      await dragByFinger(page, [x, y], [x, y - 80])
      await expect.poll(async () => (await live(page))!.moved!.distanceM).toBeGreaterThan(4)
    }, PHONE))

  it('takes several by taps, by a box of the mouse, of a finger, and of the keys', async () => {
    await on(async (page) => {
      await take(page, { do: 'select' })
      await click(page, 12, -1.5)
      expect(await page.evaluate(() => window.page.told.selected)).toHaveLength(1)
      await page.mouse.move(...(await pixel(page, -7, -7)))
      await page.mouse.down()
      await page.mouse.move(...(await pixel(page, 31, 17)), { steps: 3 })
      expect(await page.locator('svg.sketch .box').count()).toBe(1)
      await page.mouse.up()
      const boxed = await page.evaluate(() => window.page.told.selected)
      const within = await page.evaluate(() =>
        window.page.farm.layers.structures.features.map(({ properties }) => properties.id),
      )
      // Only what lies wholly within: of the invented farm's things, the shed stands beyond, the beds run out of the box.
      expect(boxed.every(({ kind, id }) => kind !== 'structures' || within.includes(id))).toBe(true)
      expect(boxed.some(({ kind }) => kind === 'beds')).toBe(false)
      // The farm seen small, and a box of 300 by 300 pixels about its middle.
      await page.evaluate(async () => {
        window.page.told.selected = []
        window.page.map.fitTo(null)
        await window.page.map.picture()
      })
      const press = async (key: string, times = 1) => {
        for (let n = 0; n < times; n++) await page.keyboard.press(key)
      }
      await press('-', 2)
      await page.evaluate(() => window.page.map.picture())
      await press('Enter')
      await press('ArrowLeft', 15)
      await press('ArrowUp', 15)
      await press('Shift+Enter')
      await press('ArrowRight', 30)
      await press('ArrowDown', 30)
      expect(await page.locator('svg.sketch .box').count()).toBe(1)
      await press('Shift+Enter')
      await expect.poll(() => page.evaluate(() => window.page.told.selected.length)).toBeGreaterThan(5)
      expect(await page.locator('svg.sketch .box').count()).toBe(0)
    })
    await on(async (page) => {
      await page.evaluate(() => {
        window.page.choices.boxes = true
      })
      await page.evaluate(() => window.page.map.fitTo(null))
      await page.evaluate(() => window.page.map.picture())
      await take(page, { do: 'select' })
      await page.touchscreen.tap(...(await pixel(page, 12, -6)))
      await expect.poll(() => page.evaluate(() => window.page.told.selected)).toHaveLength(1)
      await dragByFinger(page, [4, 40], [384, 820])
      await expect.poll(() => page.evaluate(() => window.page.told.selected.length)).toBeGreaterThan(30)
    }, PHONE)
  })

  it('tells the edge that is tapped, and shows what would come of it', () =>
    on(async (page) => {
      await take(page, { do: 'arrange', edges: true })
      // Weir Piece's western edge leans 12° from north.
      await click(page, 6 * Math.tan((12 * Math.PI) / 180), -6)
      const edge = (await page.evaluate(() => window.page.told.edge))!
      expect(Math.hypot(edge[0][0] - edge[1][0], edge[0][1] - edge[1][1])).toBeGreaterThan(20)
      await page.evaluate(() => {
        const { farm, session } = window.page
        const [bed] = farm.layers.beds.features
        session!.preview([{ kind: 'beds', id: 'x', geometry: bed!.geometry }], false)
      })
      expect(await page.locator('svg.sketch .drawn').last().getAttribute('d')).toMatch(/^M/)
    }))
}
