import { existsSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeDemoRecords } from '../../fixtures/demo/makeDemo.ts'
import { LAYERS } from '../../geo/layers/layer.ts'
import { KINDS } from '../../geo/model/kinds.ts'
import { addField, answer, ask, makeFarm } from './deskPage.ts'
import { newProfile, removeProfile, type Site, serveDesk, startBrowser, type TestBrowser } from './harness.ts'

const DATA = process.env.SELION_OPEN_DATA ?? resolve(import.meta.dirname, '../../../shared/data')
const on = '2026-07-15'

describe('every request of the page', () => {
  let site: Site
  let profile: string
  let browser: TestBrowser
  let page: Page
  beforeAll(async () => {
    site = await serveDesk()
    profile = await newProfile()
    browser = await startBrowser(site.url, profile)
    page = await browser.open('')
  })
  afterAll(async () => {
    try {
      await browser?.close()
    } finally {
      await site?.close()
      await removeProfile(profile)
    }
  })

  it('is answered on the demo farm', async () => {
    const demo = await answer(page, 'makeDemo', {})
    expect(demo.entry.invented).toBe(true)
    expect(demo.notices).toEqual([])
    const layers = await answer(page, 'seeLayers', { on })
    for (const name of LAYERS) expect(layers[name].features.length, name).toBeGreaterThan(0)
    const { fields, beds } = await answer(page, 'measure', { on })
    for (const field of fields) expect(field.held_m + field.unheld_m).toBeCloseTo(field.climbing_m, 9)
    expect((await answer(page, 'clearance', { on })).length).toBeGreaterThan(0)
    expect((await answer(page, 'supportRuns', { on })).length).toBeGreaterThan(0)
    const season = demo.seasons.find((one) => one === 2025)!
    const reckoned = await answer(page, 'yield', { season, seasons: [], of: null, cellM: 1, smoothM: 1.5 })
    const weeks = await answer(page, 'pickWeeks', { season })
    const picked = weeks.reduce((sum, week) => sum + week.kg, 0)
    expect(reckoned.totalKg).toBeCloseTo(picked, 6)
    const cells = reckoned.cells.reduce((sum, cell) => sum + cell.properties.kg, 0)
    expect(Math.abs(cells / reckoned.totalKg - 1)).toBeLessThan(1e-9)
    const card = await answer(page, 'seeCard', { kind: 'beds', id: beds[0]!.id, on })
    expect(card.title).not.toBe('')
    for (const kind of KINDS) await answer(page, 'listRecords', { kind: kind.name })
    for (const photo of await answer(page, 'listPhotos', {})) {
      const { picture } = await answer(page, 'photoPicture', { id: photo.id, maxSidePx: 512 })
      expect(picture.type === 'encoded' ? Object.keys(picture.bytes).length : picture.width).toBeGreaterThan(100)
    }
  })

  it('gives the demo farm back as the archive that it came as', async () => {
    const taken = await page.evaluate(async () => {
      const reply = await desk.ask('takeArchive', {})
      if (!reply.ok) throw new Error(reply.fault.detail)
      const { name, zip } = reply.value
      const bytes = new Uint8Array(await zip.arrayBuffer())
      const brought = await desk.ask('bringArchive', { name, bytes, partial: false })
      const again = await desk.ask('takeArchive', {})
      const theirs = new Uint8Array(again.ok ? await again.value.zip.arrayBuffer() : new ArrayBuffer(0))
      return {
        name,
        isSame: theirs.length === bytes.length && theirs.every((byte, i) => byte === bytes[i]),
        brought: brought.ok ? brought.value.entry.invented : brought.fault,
        bytes: bytes.length,
      }
    })
    expect(taken).toMatchObject({ isSame: true, brought: false })
    const raw = [...makeDemoRecords().values()].reduce((sum, bytes) => sum + bytes.length, 0)
    expect(taken.bytes).toBeGreaterThan(raw / 7)
    expect((await answer(page, 'listFarms', {})).length).toBe(2)
  })

  it.skipIf(!existsSync(join(DATA, 'OSBS_029.tif')))('keeps an aerial photo (open data absent: not run)', async () => {
    await makeFarm(page, 'Under a photo', [-82.0, 29.7])
    const bytes = readFileSync(join(DATA, 'OSBS_029.tif')).toString('base64')
    const added = await page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))
      return desk.ask('addPhoto', {
        files: [{ name: 'OSBS_029.tif', bytes }],
        on: null,
        crs: null,
        place: null,
        at: '2025-07-01',
      })
    }, bytes)
    if (!added.ok) throw new Error(added.fault.detail)
    // gdalinfo -json (GDAL 3.6.2, X) of the same file, wgs84Extent: upper left, upper right, lower right, lower left.
    const told = [
      [-81.9900994, 29.6926828],
      [-81.989686, 29.6926859],
      [-81.9896825, 29.6923249],
      [-81.9900959, 29.6923218],
    ]
    // It gives seven decimals, which is a centimetre; a photo is to lie within 0.1 m, a millionth of a degree.
    const off = added.value.photo.corners!.flatMap((corner, i) =>
      corner.map((value, k) => Math.abs(value - told[i]![k]!)),
    )
    expect(Math.max(...off)).toBeLessThan(1.5e-7)
    const { id } = added.value.photo
    const seen = await page.evaluate(async (id) => {
      const reply = await desk.ask('photoPicture', { id, maxSidePx: 400 })
      if (!reply.ok || reply.value.picture.type !== 'rgba') return reply
      const { data, width, height } = reply.value.picture
      return {
        corners: reply.value.corners,
        length: data.length,
        width,
        height,
        opaque: data.filter((_, i) => i % 4 === 3 && data[i]! > 0).length,
      }
    }, id)
    // Its no-data value is 255 in every band, so that pure white is see-through.
    expect(seen).toMatchObject({ length: 400 * 400 * 4, opaque: expect.toSatisfy((n: number) => n > 0.99 * 400 * 400) })
    await answer(page, 'undo', { on: '2025-07-01' })
    expect(await ask(page, 'photoPicture', { id, maxSidePx: 400 })).toMatchObject({ fault: { kind: 'not found' } })
    await addField(page, 'beside', [-81.99, 29.69])
  })

  it('takes a picture with its world file, and says what is missing without', async () => {
    const placed = await page.evaluate(async () => {
      const canvas = new OffscreenCanvas(300, 200)
      const context = canvas.getContext('2d')!
      context.fillStyle = '#3f5a33'
      context.fillRect(0, 0, 300, 200)
      const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer())
      const picture = { name: 'from a kite.png', bytes }
      const lines = (text: string) => new TextEncoder().encode(text)
      const world = { name: 'from a kite.pgw', bytes: lines('0.000001\n0\n0\n-0.000001\n-81.99\n29.69\n') }
      const grid = { name: 'from a kite.pgw', bytes: lines('0.1\n0\n0\n-0.1\n404000\n3285000\n') }
      const photo = (files: (typeof picture)[], crs: string | null = null) =>
        desk.ask('addPhoto', { files, on: '2025-05-01', crs, place: null, at: '2025-07-01' })
      const added = await photo([picture, world])
      const inGrid = await photo([picture, grid], 'EPSG:32617')
      const seen = added.ok ? await desk.ask('photoPicture', { id: added.value.photo.id, maxSidePx: 400 }) : added
      return {
        corner: added.ok ? added.value.photo.corners![0] : added.fault,
        gridCorner: inGrid.ok ? inGrid.value.photo.corners![0] : inGrid.fault,
        seen: seen.ok && seen.value.picture.type,
        faults: [await photo([picture]), await photo([picture, grid]), await photo([world])].map(
          (r) => !r.ok && r.fault,
        ),
      }
    })
    // A world file's C and F are the centre of the upper left pixel (reference: world file lines A, D, B, E, C, F).
    expect(placed.corner).toEqual([expect.closeTo(-81.9900005, 10), expect.closeTo(29.6900005, 10)])
    // cs2cs (PROJ 9.1.1, X) of 403999.95 3285000.05 from EPSG:32617 to EPSG:4326.
    expect(placed.gridCorner).toEqual([expect.closeTo(-81.992277299, 8), expect.closeTo(29.691377351, 8)])
    expect(placed.seen).toBe('encoded')
    expect(placed.faults).toMatchObject([
      { kind: 'photo', field: 'georeference' },
      { kind: 'photo', field: 'crs' },
      { kind: 'photo', field: 'file' },
    ])
  })
})
