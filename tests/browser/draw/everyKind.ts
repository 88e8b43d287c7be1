import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import type { Tool } from '../../../src/draw/session.ts'
import { click, corners, finished, live, type OnPage, PHONE, pixel, take } from './drawingPage.ts'

/** What corners are held to or typed, every kind of thing by every hand, and what is only measured. */
export function drawsEveryKind(on: OnPage): void {
  it('carries an edge on, holds square where it does, names both with their guide lines, and lets go of what is switched off', () =>
    on(async (page) => {
      // Weir Piece's western edge runs from (0, 0); carried on past its corner it is an extension.
      const [a] = await page.evaluate(() => {
        const { farm } = window.page
        const ring = farm.layers.fields.features[0]!.geometry
        if (ring.type !== 'Polygon') throw new Error(ring.type)
        const corners = ring.coordinates[0]!.map((p) => farm.plane.toMetres([p[0]!, p[1]!]))
        return [corners[0]!, corners[4]!]
      })
      const beyond = [-a[0] * (6 / Math.hypot(...a)), -a[1] * (6 / Math.hypot(...a))] as const
      await take(page, { do: 'draw', what: 'row' })
      const [x, y] = await pixel(page, beyond[0], beyond[1])
      await page.mouse.move(x + 4, y)
      expect(await live(page)).toMatchObject({ snapped: 'extension', held: ['extension'] })
      expect(await page.locator('svg.sketch .guide-name').allTextContents()).toEqual(['extension'])
      expect(await page.locator('svg.sketch .guide').first().getAttribute('d')).toMatch(/^M/)
      await page.evaluate(() => {
        window.page.choices.snaps = { ...window.page.choices.snaps, extension: false }
        window.page.session!.refresh()
      })
      expect((await live(page))!.snapped).toBeNull()
    }))

  it('takes a typed bearing, length and area exactly, with no pointer at all', () =>
    on(async (page) => {
      await take(page, { do: 'draw', what: 'field' })
      await click(page, -4, 12)
      const measures = await page.evaluate(() => {
        const session = window.page.session!
        const put = (bearing: number, length: number) => {
          session.type('bearingDeg', bearing)
          session.type('lengthM', length)
          session.putCorner()
        }
        put(90, 12)
        put(0, 5)
        session.type('bearingDeg', 270)
        session.type('areaM2', 45)
        session.putCorner()
        session.finish()
        return window.page.told.finished!.measures
      })
      // By hand: (12 + side) / 2 · 5 = 45, so the last side is 6 m; a degree of longitude is known to 3 nm.
      expect(Math.abs(measures.areaM2! / 45 - 1)).toBeLessThan(1e-7)
      const ring = await corners(page)
      const sides = ring.map(([e, n], i) => Math.hypot(ring[(i + 1) % 4]![0] - e, ring[(i + 1) % 4]![1] - n))
      expect(sides.map((m) => Math.round(m * 1e5) / 1e5)).toEqual(expect.arrayContaining([12, 5, 6]))
    }))

  it('draws every kind of thing, with a hole that must lie inside', () =>
    on(async (page) => {
      const type = async (what: Parameters<typeof take>[1], ...at: (readonly [number, number])[]) => {
        await take(page, what)
        for (const [e, n] of at) await click(page, e, n)
        await page.evaluate(() => window.page.session!.finish())
        return (await finished(page))?.geometry.type
      }
      expect(await type({ do: 'draw', what: 'observation' }, [-4, 12])).toBe('Point')
      expect(await type({ do: 'draw', what: 'structure line' }, [-4, 12], [5, 13])).toBe('LineString')
      expect(await type({ do: 'draw', what: 'field rectangle' }, [-4, 10], [12, 11], [12, 15])).toBe('Polygon')
      const of = await page.evaluate(() => ({
        kind: 'fields' as const,
        id: 'x',
        geometry: window.page.told.finished!.geometry,
      }))
      await take(page, { do: 'draw', what: 'hole', of })
      for (const [e, n] of [
        [0, 12],
        [4, 12],
        [4, 16],
      ] as const)
        await click(page, e, n)
      expect(await page.evaluate(() => window.page.session!.finish())).toBe('leaves its ground')
      expect(await finished(page)).toBeNull()
      await page.keyboard.press('Backspace')
      await click(page, 4, 13.4)
      expect(await page.evaluate(() => window.page.session!.finish())).toBeNull()
    }))

  /** Ways to put corners down at places in metres east and north, without a mouse; the last again, or the first, ends it. */
  const byHand = {
    'by taps': async (page: Page, places: readonly (readonly [number, number])[]) => {
      for (const [e, n] of places) await page.touchscreen.tap(...(await pixel(page, e, n)))
    },
    'by keys': async (page: Page, places: readonly (readonly [number, number])[]) => {
      // The first Enter shows the cross in the map's middle; arrows move it by ten pixels, with Shift by one.
      const { width, height } = (await page.locator('.maplibregl-canvas').boundingBox())!
      let at = [Math.round(width / 2), Math.round(height / 2)]
      const go = async (byPx: number, back: string, on: string) => {
        const key = byPx < 0 ? back : on
        for (let n = 0; n < Math.floor(Math.abs(byPx) / 10); n++) await page.keyboard.press(key)
        for (let n = 0; n < Math.abs(byPx) % 10; n++) await page.keyboard.press(`Shift+${key}`)
      }
      await page.keyboard.press('Enter')
      for (const [e, n] of places) {
        const to = (await pixel(page, e, n)).map(Math.round)
        await go(to[0]! - at[0]!, 'ArrowLeft', 'ArrowRight')
        await go(to[1]! - at[1]!, 'ArrowUp', 'ArrowDown')
        at = to
        await page.keyboard.press('Enter')
      }
    },
  }

  it.each([
    ['by taps', PHONE],
    ['by keys', undefined],
  ] as const)('draws a field, a hole in it, a row, a tree, structures and something seen %s alone', (way, size) =>
    on(async (page) => {
      await page.evaluate(() => {
        window.page.choices.snaps = { corner: false, edge: false, square: false, parallel: false, extension: false }
      })
      const drawn = async (tool: Tool, places: readonly (readonly [number, number])[]) => {
        await page.evaluate(() => {
          window.page.told.finished = null
        })
        await take(page, tool)
        await byHand[way](page, places)
        await expect.poll(() => finished(page)).not.toBeNull()
        return (await finished(page))!
      }
      const square = [
        [-4, 8],
        [6, 8],
        [6, 16],
        [-4, 16],
        [-4, 8],
      ] as const
      // By hand: 10 m by 8 m, and 5 m by 4 m, each corner to the screen's pixel (0.1 m on the phone).
      const field = await drawn({ do: 'draw', what: 'field' }, square)
      expect(Math.abs(field.measures.areaM2! - 80)).toBeLessThan(2.5)
      const of = { kind: 'fields', id: 'x', geometry: field.geometry } as const
      const hole = await drawn(
        { do: 'draw', what: 'hole', of },
        square.map(([e, n]) => [-1.5 + (e + 4) / 2, 10 + (n - 8) / 2] as const),
      )
      expect(Math.abs(hole.measures.areaM2! - 20)).toBeLessThan(1.3)
      const row = await drawn({ do: 'draw', what: 'row' }, [
        [-4, 12],
        [10, 12],
        [10, 12],
      ])
      expect(row.geometry.type).toBe('LineString')
      expect(row.measures.lengthM!).toBeCloseTo(14, 0)
      for (const what of ['tree', 'structure point', 'observation'] as const) {
        const { geometry } = await drawn({ do: 'draw', what }, [[2, 13]])
        const [e, n] = await page.evaluate(
          ({ geometry }) => {
            if (geometry.type !== 'Point') throw new Error(geometry.type)
            return window.page.farm.plane.toMetres([geometry.coordinates[0]!, geometry.coordinates[1]!])
          },
          { geometry },
        )
        expect([what, Math.hypot(e! - 2, n! - 13) < 0.15]).toEqual([what, true])
      }
      const fence = await drawn({ do: 'draw', what: 'structure line' }, [
        [2, 13],
        [7, 13],
        [7, 13],
      ])
      expect(fence.geometry.type).toBe('LineString')
      expect(fence.measures.lengthM!).toBeCloseTo(5, 0)
      const shed = await drawn({ do: 'draw', what: 'structure area' }, [
        [0, 9],
        [8, 9],
        [8, 15],
        [0, 9],
      ])
      // By hand: 8 m by 6 m, halved.
      expect(Math.abs(shed.measures.areaM2! - 24)).toBeLessThan(1.3)
    }, size),
  )

  it('measures lines and outlines one after another, keeps a running sum, and keeps nothing', () =>
    on(async (page) => {
      await page.evaluate(() => {
        window.page.choices.snaps = { corner: false, edge: false, square: false, parallel: false, extension: false }
      })
      await take(page, { do: 'draw', what: 'measure' })
      for (const [e, n] of [
        [-4, 12],
        [-1, 16],
        [-1, 16],
      ] as const)
        await click(page, e, n)
      expect((await live(page))!.sums).toMatchObject({ lines: 1, outlines: 0 })
      expect((await live(page))!.sums!.lengthM).toBeCloseTo(5, 1)
      for (const [e, n] of [
        [4, 10],
        [14, 10],
        [14, 16],
        [4, 10],
      ] as const)
        await click(page, e, n)
      const { sums } = (await live(page))!
      expect(sums).toMatchObject({ lines: 1, outlines: 1 })
      expect(sums!.areaM2).toBeCloseTo(30, 0)
      await page.evaluate(() => window.page.session!.clear())
      expect((await live(page))!.sums).toMatchObject({ lines: 0, outlines: 0, lengthM: 0, areaM2: 0 })
      await page.keyboard.press('Escape')
      expect(await finished(page)).toBeNull()
      expect(await page.locator('svg.sketch').count()).toBe(0)
    }))
}
