import type { BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Tool } from '../../src/draw/session.ts'
import { type MapSite, makeMapSite } from './map/openMapPage.ts'
import { dragByFinger } from './pageActs.ts'

/** The part of the invented farm that the tests draw over, in metres of its plane: bare ground north-west of Weir Piece's corner at 0, 0. */
const VIEW = { southWest: [-8, -8], northEast: [32, 18] } as const
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 }

describe('drawing', () => {
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
  const take = (page: Page, tool: Tool) =>
    page.evaluate((t) => window.page.draw(t, window.page.farm.plane.origin), tool)
  const pixel = (page: Page, east: number, north: number) =>
    page.evaluate(([e, n]) => window.page.pixel(e!, n!), [east, north])
  const click = async (page: Page, east: number, north: number) => {
    const at = await pixel(page, east, north)
    await page.mouse.move(...at)
    await page.mouse.click(...at)
  }
  const live = (page: Page) => page.evaluate(() => window.page.told.live)
  const finished = (page: Page) => page.evaluate(() => window.page.told.finished)
  /** Corners of the finished outline in metres, the first not repeated. */
  const corners = (page: Page) =>
    page.evaluate(() => {
      const geometry = window.page.told.finished?.geometry
      if (geometry?.type !== 'Polygon') throw new Error(`no polygon but ${geometry?.type}`)
      return geometry.coordinates[0]!.slice(0, -1).map((p) => window.page.farm.plane.toMetres([p[0]!, p[1]!]))
    })
  const edit = (page: Page, id: string) =>
    page.evaluate((bed) => {
      const { farm, draw } = window.page
      const geometry = farm.layers.beds.features.find((f) => f.properties.id === bed)!.geometry
      if (geometry.type !== 'Polygon') throw new Error(geometry.type)
      draw({ do: 'edit', kind: 'beds', id: bed, geometry }, farm.plane.origin)
    }, id)

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
  ] as const)('draws a field, a hole in it, a row and a tree %s alone', (way, size) =>
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
      const tree = await drawn({ do: 'draw', what: 'tree' }, [[2, 13]])
      const [e, n] = await page.evaluate(
        ({ geometry }) => {
          if (geometry.type !== 'Point') throw new Error(geometry.type)
          return window.page.farm.plane.toMetres([geometry.coordinates[0]!, geometry.coordinates[1]!])
        },
        { geometry: tree.geometry },
      )
      expect(Math.hypot(e! - 2, n! - 13)).toBeLessThan(0.15)
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
      await page.evaluate(() => {
        window.page.told.selected = []
      })
      await page.keyboard.press('Enter')
      await page.keyboard.press('Shift+Enter')
      for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowDown')
      await page.keyboard.press('Shift+Enter')
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
})
