import { expect, it } from 'vitest'
import { dragByFinger } from '../pageActs.ts'
import { corners, edit, finished, live, type OnPage, PHONE, pixel } from './drawingPage.ts'

/** What stands gets another shape. */
export function reshapes(on: OnPage): void {
  it('drags one corner of a bed and leaves the others as they were, the bed itself not drawn meanwhile', () =>
    on(async (page) => {
      const id = 'field Weir Piece bed 1'
      const shown = () =>
        page.evaluate(async (bed) => {
          await window.page.map.picture()
          return window.page.map.drawing.map
            .queryRenderedFeatures({ layers: ['bed-line'] })
            .some((f) => f.properties.id === bed)
        }, id)
      expect(await shown()).toBe(true)
      const before = await page.evaluate((bed) => {
        const { geometry } = window.page.farm.layers.beds.features.find((f) => f.properties.id === bed)!
        if (geometry.type !== 'Polygon') throw new Error(geometry.type)
        return geometry.coordinates[0]!.slice(0, -1).map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
      }, id)
      await edit(page, id)
      expect(await shown()).toBe(false)
      const corner = before[3]!
      const from = await pixel(page, corner[0], corner[1])
      const [x, y] = await pixel(page, corner[0] - 1.5, corner[1] + 0.5)
      await page.mouse.move(from[0] + 3, from[1] + 2)
      await page.mouse.down()
      await page.mouse.move(x + 40, y, { steps: 3 })
      await page.mouse.move(x + 3, y + 2, { steps: 3 })
      await page.mouse.up()
      expect(await live(page)).toMatchObject({ corners: 4, problem: null })
      await page.keyboard.press('Enter')
      const after = await corners(page)
      const moved = after.map((p) => Math.min(...before.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1]))))
      expect(moved.filter((m) => m < 1e-8)).toHaveLength(3)
      const far = after[moved.findIndex((m) => m >= 1e-8)]!
      expect(Math.hypot(far[0] - corner[0] + 1.5, far[1] - corner[1] - 0.5)).toBeLessThan(0.06)
      expect(await shown()).toBe(true)
    }))

  it('makes and takes away corners, moves the whole by keys, and takes changes back', () =>
    on(async (page) => {
      await edit(page, 'field Weir Piece bed 1')
      const start = (await live(page))!
      // From corner to corner by Tab: four corners, four middles, the whole.
      for (let i = 0; i < 5; i++) await page.keyboard.press('Tab')
      await page.keyboard.press('ArrowDown')
      expect(await live(page)).toMatchObject({ corners: 5 })
      await page.keyboard.press('Delete')
      expect(await live(page)).toMatchObject({ corners: 4, areaM2: expect.closeTo(start.areaM2!, 6) })
      for (let i = 0; i < 9; i++) await page.keyboard.press('Tab')
      await page.keyboard.press('ArrowUp')
      const moved = (await live(page))!
      expect(moved.areaM2!).toBeCloseTo(start.areaM2!, 6)
      expect(moved.at).not.toEqual(start.at)
      await page.evaluate(() => {
        for (let i = 0; i < 3; i++) window.page.session!.takeBack()
        window.page.session!.finish()
      })
      const told = (await finished(page))!
      expect(told.measures.areaM2!).toBeCloseTo(start.areaM2!, 6)
    }))

  it('moves a corner by two taps, for hands that do not drag', () =>
    on(async (page) => {
      await page.evaluate(() => {
        const { farm, draw } = window.page
        const at = farm.plane.toLonLat([-4, 12])
        draw(
          { do: 'edit', kind: 'trees', id: 'hazel', geometry: { type: 'Point', coordinates: [...at] } },
          farm.plane.origin,
        )
      })
      const from = await pixel(page, -4, 12)
      await page.touchscreen.tap(from[0] + 14, from[1] + 10)
      await page.touchscreen.tap(...(await pixel(page, 4, 14)))
      await page.evaluate(() => window.page.session!.finish())
      const at = await page.evaluate(() => {
        const geometry = window.page.told.finished?.geometry
        if (geometry?.type !== 'Point') throw new Error(geometry?.type)
        return window.page.farm.plane.toMetres([geometry.coordinates[0]!, geometry.coordinates[1]!])
      })
      expect(Math.hypot(at[0] - 4, at[1] - 14)).toBeLessThan(0.2)
    }, PHONE))

  it.each([
    ['by a finger', PHONE],
    ['by mouse', undefined],
  ] as const)('drags a corner, draws a new one out of a side, and takes it away again, %s', (_way, size) =>
    on(async (page) => {
      const drag = async (from: readonly [number, number], to: readonly [number, number]) => {
        if (size) return dragByFinger(page, from, to)
        await page.mouse.move(...from)
        await page.mouse.down()
        await page.mouse.move(...to, { steps: 4 })
        await page.mouse.up()
      }
      // A shed of 12 m by 6 m, on bare ground.
      await page.evaluate(() => {
        const { farm, draw, choices } = window.page
        choices.snaps = { corner: false, edge: false, square: false, parallel: false, extension: false }
        const ring = (
          [
            [-4, 8],
            [8, 8],
            [8, 14],
            [-4, 14],
            [-4, 8],
          ] as const
        ).map((p) => [...farm.plane.toLonLat(p)])
        const geometry = { type: 'Polygon' as const, coordinates: [ring] }
        draw({ do: 'edit', kind: 'structures', id: 'shed', geometry }, farm.plane.origin)
      })
      expect(await live(page)).toMatchObject({ corners: 4, canDrop: false })
      await drag(await pixel(page, 8, 14), await pixel(page, 8, 17))
      // By hand: a trapezium of 12 m between sides of 6 m and 9 m.
      await expect.poll(async () => Math.abs((await live(page))!.areaM2! - 90)).toBeLessThan(1)
      await drag(await pixel(page, 2, 8), await pixel(page, 2, 5))
      // And a triangle of 12 m by 3 m.
      await expect.poll(async () => Math.abs((await live(page))!.areaM2! - 108)).toBeLessThan(1.5)
      expect(await live(page)).toMatchObject({ corners: 5, canDrop: true })
      await page.evaluate(() => window.page.session!.dropCorner())
      expect(await live(page)).toMatchObject({ corners: 4, canDrop: false })
      expect(Math.abs((await live(page))!.areaM2! - 90)).toBeLessThan(1)
      expect(await page.evaluate(() => window.page.session!.finish())).toBeNull()
      expect(await corners(page)).toHaveLength(4)
    }, size),
  )

  it('keeps a bed’s right angles while a corner is dragged, its rows going along', () =>
    on(async (page) => {
      const id = 'field Weir Piece bed 1'
      const before = await page.evaluate((bed) => {
        const { farm, choices } = window.page
        choices.keepsSquare = true
        choices.along = farm.layers.rows.features
          .filter(({ properties }) => properties.bed === bed)
          .map(({ properties, geometry }) => ({ kind: 'rows', id: properties.id, geometry }))
        const { geometry } = farm.layers.beds.features.find((f) => f.properties.id === bed)!
        if (geometry.type !== 'Polygon') throw new Error(geometry.type)
        return geometry.coordinates[0]!.slice(0, -1).map((p) => farm.plane.toMetres([p[0]!, p[1]!]))
      }, id)
      await edit(page, id)
      const corner = before[3]!
      const from = await pixel(page, corner[0], corner[1])
      const to = await pixel(page, corner[0] - 2, corner[1] + 0.7)
      await page.keyboard.down('Alt')
      await page.mouse.move(...from)
      await page.mouse.down()
      await page.mouse.move(...to, { steps: 4 })
      await page.mouse.up()
      await page.keyboard.up('Alt')
      await page.keyboard.press('Enter')
      const ring = await corners(page)
      for (let i = 0; i < 4; i++) {
        const [a, b, c] = [ring[i]!, ring[(i + 1) % 4]!, ring[(i + 2) % 4]!]
        const dot = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
        expect(
          Math.abs(dot) / (Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(c[0] - b[0], c[1] - b[1])),
        ).toBeLessThan(1e-5)
      }
      const rows = await page.evaluate(() =>
        window.page.told.finished!.others.map(({ geometry }) => {
          if (geometry.type !== 'LineString') throw new Error(geometry.type)
          return geometry.coordinates.map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
        }),
      )
      const long = Math.max(
        ...ring.map((p, i) => Math.hypot(p[0] - ring[(i + 1) % 4]![0], p[1] - ring[(i + 1) % 4]![1])),
      )
      expect(rows).toHaveLength(2)
      for (const [a, b] of rows) expect(Math.hypot(a![0] - b![0], a![1] - b![1])).toBeCloseTo(long, 4)
    }))
}
