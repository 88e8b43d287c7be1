import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type MapSite, makeMapSite, type OpenPage } from './map/openMapPage.ts'

/** The map with the invented farm on it, all drawn. */
async function withFarm(site: MapSite, ...ask: Parameters<MapSite['open']>): Promise<OpenPage> {
  const open = await site.open(...ask)
  await open.page.evaluate(async () => {
    const { map, farm } = window.page
    await map.setLayers(farm.layers)
    map.fitTo(null)
    await map.picture()
  })
  return open
}

describe('the map', () => {
  let site: MapSite
  beforeAll(async () => {
    site = await makeMapSite({ painted: true })
  })
  afterAll(() => site?.close())

  /** Runs on a fresh page, and holds it to have complained of nothing. */
  const on = async (work: (open: OpenPage) => Promise<void>, ...ask: Parameters<MapSite['open']>) => {
    const open = await withFarm(site, ...ask)
    try {
      await work(open)
      expect(open.complaints).toEqual([])
      expect(await open.page.evaluate(() => window.page.told.faults)).toEqual([])
    } finally {
      await open.context.close()
    }
  }

  it('draws every kind of thing, and its words in the bundled fonts', () =>
    on(async ({ page }) => {
      const seen = await page.evaluate(async () => {
        const { map, farm } = window.page
        const ids = (source: string) =>
          new Set(
            map.drawing.map
              .queryRenderedFeatures()
              .filter((f) => f.source === source)
              .map((f) => String(f.properties.id)),
          ).size
        map.setSheet('supports')
        await map.picture()
        const told: Record<string, [number, number]> = {}
        for (const [source, { features }] of Object.entries(farm.layers))
          told[source] = [ids(source), new Set(features.map((f) => f.properties.id)).size]
        const fonts = [...document.fonts]
          .filter((f) => f.family.startsWith('maplibre-gl-font-face'))
          .map((f) => f.status)
        const climbing = farm.layers.stretches.features.filter((f) => f.properties.climbs)
        return { told, fonts, climbing: new Set(climbing.map((f) => f.properties.id)).size, names: ids('field-names') }
      })
      const { stretches, ...others } = seen.told
      for (const [source, [shown, held]] of Object.entries(others))
        expect(`${source} ${shown}`).toBe(`${source} ${held}`)
      expect(stretches![0]).toBe(seen.climbing)
      expect(seen.names).toBe(3)
      expect(seen.fonts.length).toBeGreaterThanOrEqual(2)
      expect(new Set(seen.fonts)).toEqual(new Set(['loaded']))
    }))

  it('takes a step in as if all had been set anew, to the pixel', () =>
    on(async ({ page }) => {
      const [patched, anew, apart] = await page.evaluate(async () => {
        const { map, farm } = window.page
        const bytes = async () => [...new Uint8Array(await (await map.picture()).arrayBuffer())].join()
        const before = await bytes()
        const { beds, stretches, fields } = farm.layers
        const [first, second, third] = beds.features
        const grown = structuredClone(first!)
        if (grown.geometry.type !== 'Polygon') throw new Error(grown.geometry.type)
        grown.geometry.coordinates[0]![2] = farm.plane.toLonLat([60, 20]) as unknown as number[]
        const added = { ...structuredClone(third!), properties: { ...third!.properties, id: 'new', name: 'New' } }
        added.geometry = structuredClone(fields.features[2]!.geometry)
        await map.patch({
          beds: { put: [grown, added], gone: [second!.properties.id] },
          stretches: { put: [], gone: [stretches.features[0]!.properties.id] },
          trees: { put: [], gone: ['walnut'] },
          canopies: { put: [], gone: ['walnut'] },
        })
        await map.patch({
          fields: {
            put: [{ ...fields.features[0]!, properties: { ...fields.features[0]!.properties, name: 'Renamed' } }],
            gone: [],
          },
        })
        const after = await bytes()
        await map.setLayers({
          ...farm.layers,
          fields: { type: 'FeatureCollection', features: [...map.drawing.featuresOf('fields')] },
          beds: { type: 'FeatureCollection', features: [...map.drawing.featuresOf('beds')] },
          stretches: { type: 'FeatureCollection', features: [...map.drawing.featuresOf('stretches')] },
          trees: { type: 'FeatureCollection', features: [...map.drawing.featuresOf('trees')] },
          canopies: { type: 'FeatureCollection', features: [...map.drawing.featuresOf('canopies')] },
        })
        return [after, await bytes(), before !== after] as const
      })
      expect(apart).toBe(true)
      expect(patched === anew).toBe(true)
    }))

  it('tells what is tapped, and what lies in its middle by Enter', () =>
    on(async ({ page }) => {
      const at = (e: number, n: number) => page.evaluate(([x, y]) => window.page.pixel(x!, y!), [e, n])
      const last = () => page.evaluate(() => window.page.told.picks.at(-1))
      await page.mouse.click(...(await at(103, 16)))
      await expect.poll(last).toMatchObject({ thing: { kind: 'trees', id: 'walnut' }, zone: null })
      await page.mouse.click(...(await at(130, 60)))
      await expect.poll(last).toMatchObject({ thing: null })
      await page.evaluate(async () => {
        const { map } = window.page
        map.fitTo({ kind: 'beds', id: 'field Long Ham bed 4' })
        await map.picture()
        map.drawing.map.getCanvas().focus()
      })
      await page.keyboard.press('Enter')
      await expect.poll(last).toMatchObject({ thing: { kind: 'beds', id: 'field Long Ham bed 4' } })
    }))

  it('gives a finger 44 pixels', () =>
    on(
      async ({ page }) => {
        const [x, y] = await page.evaluate(() => window.page.pixel(236, -18))
        await page.touchscreen.tap(x + 20, y)
        await expect
          .poll(() => page.evaluate(() => window.page.told.picks.at(-1)))
          .toMatchObject({ thing: { kind: 'trees', id: 'hazel' } })
        await page.touchscreen.tap(x, y - 60)
        await expect.poll(() => page.evaluate(() => window.page.told.picks.at(-1))).toMatchObject({ thing: null })
      },
      { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
    ))

  it('tells the value of the cell under the mouse, on the Yield sheet only, and the zone that is tapped', () =>
    on(async ({ page }) => {
      await page.evaluate(async () => {
        const { map, farm } = window.page
        await map.setSurface(farm.surface)
        const ring = (
          [
            [70, -25],
            [92, -25],
            [92, 15],
            [70, 15],
            [70, -25],
          ] as const
        ).map((p) => [...farm.plane.toLonLat(p)])
        await map.setZones({
          type: 'FeatureCollection',
          features: [
            { type: 'Feature', properties: { id: 'zone 1' }, geometry: { type: 'Polygon', coordinates: [ring] } },
          ],
        })
        map.setSheet('yield')
        map.fitTo({ southWest: farm.plane.toLonLat([-5, -30]), northEast: farm.plane.toLonLat([95, 25]) })
        await map.picture()
      })
      // The second cell of the first bed of Weir Piece: 0.8 + 0.05 · (11 mod 10); its middle 9 m along, 3.75 m down, turned by 12°.
      const a = (12 * Math.PI) / 180
      const middle = [9 * Math.cos(a) + 3.75 * Math.sin(a), 9 * Math.sin(a) - 3.75 * Math.cos(a)] as const
      const [x, y] = await page.evaluate(([e, n]) => window.page.pixel(e!, n!), middle)
      await page.mouse.move(x, y)
      const hover = () => page.evaluate(() => window.page.told.hover)
      await expect.poll(hover).toMatchObject({
        value: expect.closeTo(0.85, 9),
        thing: { kind: 'beds', id: 'field Weir Piece bed 1' },
        name: 'W1',
      })
      // The same pieces with other values: only their colours are changed.
      await page.evaluate(async () => {
        const { map, farm } = window.page
        await map.setSurface({ ...farm.surface, values: Array.from(farm.surface.values, (value) => value + 1) })
        await map.picture()
      })
      await page.mouse.move(x + 1, y)
      await expect.poll(hover).toMatchObject({ value: expect.closeTo(1.85, 9) })
      await page.mouse.click(...(await page.evaluate(() => window.page.pixel(75, -10))))
      await expect
        .poll(() => page.evaluate(() => window.page.told.picks.at(-1)))
        .toMatchObject({ zone: 'zone 1', thing: { kind: 'beds' } })
      await page.evaluate(async () => {
        window.page.map.setSheet('ground')
        await window.page.map.picture()
      })
      await page.mouse.move(x, y)
      await expect.poll(hover).toMatchObject({ value: null })
    }))

  it('repaints for every sheet, by day, by night and in sun, keeping what is drawn', () =>
    on(async ({ page }) => {
      const seen = await page.evaluate(async () => {
        const { map, farm } = window.page
        await map.setSurface(farm.surface)
        const corner = async () => {
          const picture = await createImageBitmap(await map.picture())
          const canvas = new OffscreenCanvas(picture.width, picture.height)
          const context = canvas.getContext('2d', { willReadFrequently: true })!
          context.drawImage(picture, 0, 0)
          return [...context.getImageData(4, picture.height - 4, 1, 1).data.slice(0, 3)]
        }
        const told: string[] = []
        for (const look of ['day', 'night', 'sun'] as const)
          for (const sheet of ['ground', 'growing', 'supports', 'picking', 'yield', 'siting', 'stock'] as const) {
            map.setLook(look)
            map.setSheet(sheet)
            const ground = await corner()
            const beds = map.drawing.map.queryRenderedFeatures({ layers: ['bed-ground'] }).length
            told.push(`${sheet} ${look} ${ground} ${beds >= 38}`)
          }
        return told
      })
      const paper = { day: '247,244,234', night: '20,18,12', sun: '255,255,255' } as const
      expect(seen).toHaveLength(21)
      for (const line of seen) {
        const [, look, ...rest] = line.split(' ')
        expect([line, ...rest]).toEqual([line, paper[look as keyof typeof paper], 'true'])
      }
    }))

  it('lays a photo on its corners under the plan, and tells of one that does not decode', async () => {
    const { page, context, complaints } = await withFarm(site)
    const seen = await page.evaluate(async () => {
      const { map, farm, told } = window.page
      const corner = (e: number, n: number) => farm.plane.toLonLat([e, n])
      const corners = [corner(-60, 60), corner(-40, 60), corner(-40, 40), corner(-60, 40)] as const
      // Four quarters: red, green, blue, white.
      const quarters = [
        [255, 0, 0, 255],
        [0, 255, 0, 255],
        [0, 0, 255, 255],
        [255, 255, 255, 255],
      ]
      const side = 64
      const data = new Uint8ClampedArray(side * side * 4)
      for (let y = 0; y < side; y++)
        for (let x = 0; x < side; x++)
          data.set(quarters[(y < side / 2 ? 0 : 2) + (x < side / 2 ? 0 : 1)]!, (y * side + x) * 4)
      const sheet = new OffscreenCanvas(side, side)
      sheet.getContext('2d', { willReadFrequently: true })!.putImageData(new ImageData(data, side), 0, 0)
      const png = new Uint8Array(await (await sheet.convertToBlob()).arrayBuffer())
      const places = [
        [-55, 55],
        [-45, 55],
        [-55, 45],
        [-45, 45],
      ] as const
      const colours = async () => {
        const picture = await createImageBitmap(await map.picture())
        const canvas = new OffscreenCanvas(picture.width, picture.height)
        const context = canvas.getContext('2d', { willReadFrequently: true })!
        context.drawImage(picture, 0, 0)
        return places.map(([e, n]) => {
          const [x, y] = window.page.pixel(e, n)
          return [
            ...context
              .getImageData(Math.round(x * devicePixelRatio), Math.round(y * devicePixelRatio), 1, 1)
              .data.slice(0, 3),
          ].join()
        })
      }
      map.fitTo({ southWest: corner(-62, 38), northEast: corner(-38, 62) })
      const rgba = {
        id: 'a',
        corners,
        picture: { type: 'rgba', width: side, height: side, data },
        opacity: 1,
        visible: true,
      } as const
      await map.setPhotos([rgba])
      const asRgba = await colours()
      await map.setPhotos([{ ...rgba, id: 'b', picture: { type: 'encoded', mime: 'image/png', bytes: png } }])
      const asPng = await colours()
      await map.setPhotos([{ ...rgba, visible: false }])
      const hidden = await colours()
      await map.setPhotos([
        { ...rgba, id: 'c', picture: { type: 'encoded', mime: 'image/png', bytes: png.slice(0, 20) } },
      ])
      await map.setPhotos([])
      return { asRgba, asPng, hidden, faults: told.faults }
    })
    await context.close()
    const quarters = ['255,0,0', '0,255,0', '0,0,255', '255,255,255']
    expect(seen.asRgba).toEqual(quarters)
    expect(seen.asPng).toEqual(quarters)
    expect(seen.hidden).toEqual(['247,244,234', '247,244,234', '247,244,234', '247,244,234'])
    expect(seen.faults).toEqual(['The photo c could not be decoded as a picture.'])
    expect(complaints).toEqual([])
  })

  it('keeps a farm on the 180th meridian in one piece', () =>
    on(
      async ({ page }) => {
        const view = await page.evaluate(() => {
          const { map } = window.page
          const beds = map.drawing.map
            .queryRenderedFeatures({ layers: ['bed-ground'] })
            .map((f) => String(f.properties.id))
          return { ...map.getView(), beds: new Set(beds).size }
        })
        expect(view.beds).toBe(38)
        expect(view.metresPerPixel).toBeLessThan(1)
      },
      undefined,
      '?lon=179.9995',
    ))

  it('tells where it looks, and goes where it is told', () =>
    on(async ({ page }) => {
      const told = await page.evaluate(() => {
        const { map } = window.page
        const empty = map.fitTo({ kind: 'beds', id: 'none such' })
        map.setView({ centre: [-2.31, 52.19], zoom: 18, bearingDeg: 30 })
        const turned = map.getView()
        map.turnNorth()
        map.zoomBy(1)
        return { empty, turned, after: map.getView(), views: window.page.told.views }
      })
      expect(told.empty).toBe(false)
      expect(told.turned).toMatchObject({ zoom: 18, bearingDeg: 30 })
      expect(told.turned.centre[0]).toBeCloseTo(-2.31, 9)
      expect(told.after).toMatchObject({ zoom: 19, bearingDeg: 0 })
      expect(told.turned.metresPerPixel / told.after.metresPerPixel).toBeCloseTo(2, 9)
      expect(told.views).toBeGreaterThan(2)
    }))
})
