import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import type { Page, Worker } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readZip } from '../../geo/exchange/readZip.ts'
import { pixelGround } from '../../geo/photo/pixelGround.ts'
import { isPhotoFault } from '../../geo/photo/placement.ts'
import { placeGeoTiff } from '../../geo/photo/placePhoto.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { choosePhotos, tilesWorkerOf } from './largePhotoActs.ts'
import { hasGdal, type LargeTiffs, largeTiffs } from './largeTiffs.ts'
import { axeFinds, goToSheet, startFarm, viewOf, words } from './pageActs.ts'

if (!hasGdal) console.info('tests of large photos are skipped: GDAL is not here (Debian package gdal-bin).')

let held: HeldPage
let page: Page
let made: LargeTiffs
let first: { path: string; bytes: number }
let second: { path: string; bytes: number }

const RED = [200, 60, 40] as const
const BLUE = [40, 70, 190] as const
const GREEN = [60, 160, 70] as const
const GREY = [120, 120, 120] as const

const listed = () => page.locator('.photos li')
const section = () => page.getByRole('region', { name: 'Aerial photos' })

const choose = (...paths: string[]) => choosePhotos(page, paths)

const tilesWorker = () => tilesWorkerOf(page)

/** Counts every byte that the worker reads of a blob; pieces are slow, or the room is short, where asked. */
async function watch(worker: Worker): Promise<void> {
  await worker.evaluate(() => {
    const scope = self as unknown as { readBytes?: number; slowMs: number; roomBytes: number }
    if (scope.readBytes !== undefined) return
    scope.readBytes = 0
    scope.slowMs = 0
    scope.roomBytes = Number.POSITIVE_INFINITY
    const read = Blob.prototype.arrayBuffer
    Blob.prototype.arrayBuffer = async function () {
      scope.readBytes! += this.size
      if (scope.slowMs > 0) await new Promise((done) => setTimeout(done, scope.slowMs))
      return read.call(this)
    }
    const files = (self as unknown as { FileSystemSyncAccessHandle: { prototype: { write: unknown } } })
      .FileSystemSyncAccessHandle.prototype as { write(bytes: Uint8Array, at: { at: number }): number }
    const write = files.write
    files.write = function (bytes, { at }) {
      return at + bytes.length > scope.roomBytes ? 0 : write.call(this, bytes, { at })
    }
  })
}
const readBytes = (worker: Worker) => worker.evaluate(() => (self as unknown as { readBytes: number }).readBytes)
const set = (worker: Worker, to: { slowMs?: number; roomBytes?: number }) =>
  worker.evaluate((to) => void Object.assign(self, to), to)

/** Files of the origin's private storage that are photos, with their sizes. */
const keptPhotos = () =>
  page.evaluate(async () => {
    const found: Record<string, number> = {}
    const walk = async (folder: FileSystemDirectoryHandle, at: string): Promise<void> => {
      for await (const [name, entry] of folder.entries())
        if (entry.kind === 'directory') await walk(entry as FileSystemDirectoryHandle, `${at}${name}/`)
        else if (at.includes('/photos/')) found[name] = (await (entry as FileSystemFileHandle).getFile()).size
    }
    await walk(await navigator.storage.getDirectory(), '/')
    return found
  })

/** Colour of the map at a pixel from its upper left corner. */
const colourAt = (x: number, y: number) =>
  page.evaluate(
    async ([x, y]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('.maplibregl-canvas')!
      const into = new OffscreenCanvas(1, 1).getContext('2d')!
      into.drawImage(canvas, -x! * devicePixelRatio, -y! * devicePixelRatio)
      return [...into.getImageData(0, 0, 1, 1).data].slice(0, 3)
    },
    [x, y],
  )
const isNear = (seen: readonly number[], wanted: readonly number[]) =>
  seen.every((value, i) => Math.abs(value - wanted[i]!) < 25)
const expectColour = (at: () => readonly [number, number], wanted: readonly number[]) =>
  expect.poll(async () => isNear(await colourAt(...at()), wanted), { timeout: 15_000 }).toBe(true)

/** Pixels of the map's middle, and of a place from it. */
async function middle(): Promise<readonly [number, number]> {
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  return [box.width / 2, box.height / 2]
}

describe.skipIf(!hasGdal)('a photo too large for memory', () => {
  beforeAll(async () => {
    made = largeTiffs()
    first = made.make('spring', {
      west: RED,
      east: BLUE,
      sideM: 420,
      sidePx: 4600,
      options: ['TILED=YES'],
      overviews: true,
    })
    second = made.make('autumn', { west: GREEN, east: GREY, sideM: 420, sidePx: 3200, options: [], overviews: false })
    held = await holdPage({ sharp: true })
    page = held.page
    // 500000 east in UTM 33 is its central meridian, 15° E; 5400000 north lies at 48.7533° N (gdaltransform).
    await startFarm(page, 'Under large photos', '48.7520, 15.0028')
    await goToSheet(page, 'ground')
  })
  afterAll(async () => {
    try {
      await held?.close()
    } finally {
      made?.clear()
    }
  })

  it('is copied piece by piece, told how far, and stopped or out of room leaves nothing half', async () => {
    // A photo small enough is shown by the same worker's word; it starts it.
    await choose(second.path)
    await listed().waitFor()
    const worker = await tilesWorker()
    await watch(worker)
    await set(worker, { slowMs: 200 })
    const before = await keptPhotos()

    await choose(first.path)
    await page.getByText('Copying spring.tif to this device').waitFor()
    await expect.poll(() => words(section())).toMatch(/\d+ MB of \d+ MB/)
    await section().getByRole('button', { name: 'Stop' }).click()
    await section().getByText('Copying spring.tif').waitFor({ state: 'detached' })
    expect(await keptPhotos()).toEqual(before)
    expect(await listed().count()).toBe(1)

    await set(worker, { slowMs: 0, roomBytes: 20 * 1024 * 1024 })
    await choose(first.path)
    await section().getByRole('alert').waitFor()
    expect(await words(section().getByRole('alert'))).toMatch(/ran out after 20 MB of \d+ MB.*removed again/)
    expect(await keptPhotos()).toEqual(before)
    expect(await listed().count()).toBe(1)
    await set(worker, { roomBytes: Number.MAX_SAFE_INTEGER })
  })

  it('is kept whole, and looked at by windows: only a part of it is read', async () => {
    const worker = await tilesWorker()
    const before = await readBytes(worker)
    await choose(first.path)
    await expect.poll(() => listed().count(), { timeout: 60_000 }).toBe(2)
    const copied = (await readBytes(worker)) - before
    expect(copied).toBeGreaterThanOrEqual(first.bytes)
    const [x, y] = await middle()
    await expectColour(() => [x - 100, y], RED)
    await expectColour(() => [x + 100, y], BLUE)
    const sizes = Object.values(await keptPhotos())
    expect(sizes).toContain(first.bytes)

    // Shown whole from its overviews: a fifth of the file at most. The copy itself is the greater part of what was read.
    const shown = (await readBytes(worker)) - before - first.bytes
    expect(shown).toBeLessThan(first.bytes / 5)
    for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: 'Nearer' }).click()
    await expect.poll(async () => (await readBytes(worker)) - before - first.bytes).toBeGreaterThan(shown)
    await expectColour(() => [x - 100, y], RED)
    expect((await readBytes(worker)) - before - first.bytes).toBeLessThan(first.bytes / 2)
  })

  // Where the colours meet, by the tags alone through the place that GDAL agrees with (tests/reference/photoGrids).
  it('lies where its tags say, to a pixel of the screen', async () => {
    const photo = await placeGeoTiff(new Uint8Array(await readFile(first.path)))
    if (isPhotoFault(photo)) throw new Error(photo.detail)
    const [lon] = pixelGround(photo).lonLatOf(photo.widthPx / 2, photo.heightPx / 2)
    const { lon: centre, zoom } = viewOf(page)
    const [x, y] = await middle()
    const seam = x + ((lon - centre) / 360) * 512 * 2 ** zoom
    await expectColour(() => [Math.floor(seam) - 3, y], RED)
    await expectColour(() => [Math.ceil(seam) + 2, y], BLUE)
  })

  it('is compared with another day’s by a line: by mouse, keys and touch', async () => {
    await section().getByRole('button', { name: 'Compare two of them' }).click()
    const line = page.getByRole('slider', { name: /^Line between/ })
    await line.waitFor()
    const [x, y] = await middle()
    const at = async () => Number(await line.getAttribute('aria-valuenow'))
    expect(await at()).toBe(50)
    await section().getByLabel('Left of the line').selectOption({ label: 'spring.tif' })
    expect(await words(section().getByLabel('Right of the line').locator('option:checked'))).toBe('autumn.tif')
    await page.getByRole('button', { name: 'Farther' }).click()
    await page.getByRole('button', { name: 'Farther' }).click()
    await expectColour(() => [x - 60, y], RED)
    await expectColour(() => [x + 60, y], GREY)

    await line.focus()
    await page.keyboard.press('End')
    expect(await at()).toBe(100)
    await expectColour(() => [x + 60, y], BLUE)
    await page.keyboard.press('Home')
    await expectColour(() => [x - 60, y], GREEN)
    for (const key of ['PageUp', 'ArrowRight', 'ArrowLeft']) await page.keyboard.press(key)
    expect(await at()).toBe(10)

    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    await page.mouse.move(box.x + 0.1 * box.width, box.y + box.height / 2)
    await page.mouse.down()
    await page.mouse.move(box.x + 0.75 * box.width, box.y + box.height / 2, { steps: 4 })
    await page.mouse.up()
    expect(await at()).toBe(75)
    await expectColour(() => [x + 60, y], BLUE)

    const cdp = await page.context().newCDPSession(page)
    const finger = (type: 'touchStart' | 'touchMove' | 'touchEnd', share: number) =>
      cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + share * box.width, y: box.y + box.height / 2 }],
      })
    await finger('touchStart', 0.75)
    await finger('touchMove', 0.5)
    await finger('touchMove', 0.3)
    await finger('touchEnd', 0.3)
    await cdp.detach()
    await expect.poll(at).toBe(30)
    await expectColour(() => [x - 60, y], GREEN)
    expect(await axeFinds(page)).toEqual([])
    await section().getByRole('button', { name: 'Stop comparing' }).click()
    await line.waitFor({ state: 'detached' })
  })

  it('is in the saved archive to the byte', async () => {
    await page.getByRole('button', { name: 'Farm', exact: true }).click()
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as an archive' }).click(),
    ])
    const { files, faults } = readZip(new Uint8Array(await readFile(await download.path())))
    expect(faults).toEqual([])
    const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
    const photos = [...files].filter(([path]) => path.startsWith('photos/')).map(([, bytes]) => hash(bytes))
    const wanted = await Promise.all([first, second].map(async ({ path }) => hash(await readFile(path))))
    expect(photos.sort()).toEqual(wanted.sort())
  })

  it('is removed so that it can be taken back, and its room freed when the person says so', async () => {
    const line = listed().filter({ hasText: 'spring.tif' })
    await line.getByRole('button', { name: /Remove/ }).click()
    await line.waitFor({ state: 'detached' })
    await expect.poll(() => words(section())).toMatch(/\d+ MB of it is a removed photo/)
    expect(Object.values(await keptPhotos())).toContain(first.bytes)
    await page.getByRole('button', { name: /Undo/ }).click()
    await line.waitFor()
    const [x, y] = await middle()
    await expectColour(() => [x - 60, y], RED)

    await line.getByRole('button', { name: /Remove/ }).click()
    await section().getByRole('button', { name: 'Free that room for good' }).click()
    await expect.poll(async () => Object.values(await keptPhotos()).includes(first.bytes)).toBe(false)
    await page.getByRole('button', { name: /Undo/ }).click()
    await line.locator('.fault').waitFor()
    expect(await words(line.locator('.fault'))).toMatch(/not among this farm's files/)
  })

  /** Two points of the picture, told by a click and a typed place each, and kept. */
  async function placeByTwo(size: readonly [number, number], told: readonly [readonly [number, number], string][]) {
    await page.locator('.picture-pane canvas').waitFor()
    await page.locator('.marking').waitFor({ state: 'attached' })
    const { x, y, width, height } = (await page.locator('.picture-ground canvas').boundingBox())!
    const scale = Math.min(width / size[0], height / size[1])
    for (const [n, [[col, row], place]] of told.entries()) {
      const across = x + (width - scale * size[0]) / 2 + scale * col
      await page.mouse.click(across, y + (height - scale * size[1]) / 2 + scale * row)
      const entry = page.locator('.placing').getByLabel(`Place of point ${n + 1}`)
      await entry.fill(place)
      await entry.press('Tab')
    }
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await page.locator('.picture-pane').waitFor({ state: 'detached' })
  }

  it('is placed by points where it does not tell where it lies, read by windows, and taken up again', async () => {
    const winter = made.make('winter', {
      west: BLUE,
      east: RED,
      sideM: 420,
      sidePx: 4600,
      options: ['TILED=YES', 'COMPRESS=NONE'],
      overviews: true,
      srs: null,
    })
    await choose(winter.path)
    // 420 m about 48.7514° N, 15.0028° E: a minute of latitude is 1853 m there, one of longitude 1224 m.
    const half = { lat: 210 / 111_200, lon: 210 / 73_450 }
    const place = (down: number, across: number) => `${48.7514 + down * half.lat}, ${15.0028 + across * half.lon}`
    await placeByTwo(
      [4600, 4600],
      [
        [[0.25 * 4600, 0.25 * 4600], place(0.5, -0.5)],
        [[0.75 * 4600, 0.75 * 4600], place(-0.5, 0.5)],
      ],
    )
    const line = listed().filter({ hasText: 'winter.tif' })
    await expect.poll(() => words(line), { timeout: 30_000 }).toMatch(/Placed by 2 points/)
    expect(Object.values(await keptPhotos())).toContain(winter.bytes)
    const [x, y] = await middle()
    await expectColour(() => [x - 60, y], BLUE)
    await expectColour(() => [x + 60, y], RED)

    const worker = await tilesWorker()
    await watch(worker)
    const before = await readBytes(worker)
    await line.getByRole('button', { name: 'Place anew' }).click()
    await page.locator('.picture-pane canvas').waitFor()
    // From an overview, not from the whole.
    expect((await readBytes(worker)) - before).toBeLessThan(winter.bytes / 2)
    expect(await page.locator('.placing').getByLabel('Place of point 2').inputValue()).toMatch(/^48\.75/)
    await page.getByRole('button', { name: 'Give up' }).click()
  })

  it('keeps a JPEG of more than 4096 pixels at its own resolution', async () => {
    const [width, height] = [6000, 300]
    const bytes = await page.evaluate(
      async ([width, height]) => {
        const canvas = new OffscreenCanvas(width!, height!)
        const context = canvas.getContext('2d')!
        context.fillStyle = '#fff'
        context.fillRect(0, 0, width!, height!)
        // A pixel black, a pixel white: any smaller copy of it is grey.
        context.fillStyle = '#000'
        for (let x = 0; x < width!; x += 2) context.fillRect(x, 0, 1, height!)
        const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 })
        return [...new Uint8Array(await blob.arrayBuffer())]
      },
      [width, height],
    )
    await page
      .locator('.table-pane .file input[type=file]')
      .setInputFiles({ name: 'kite.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(bytes) })
    // 60 m long on the ground: a pixel is a centimetre.
    const half = 30 / 73_450
    await placeByTwo(
      [width, height],
      [
        [[1500, 150], `48.7514, ${15.0028 - half / 2}`],
        [[4500, 150], `48.7514, ${15.0028 + half / 2}`],
      ],
    )
    const line = listed().filter({ hasText: 'kite.jpg' })
    await expect
      .poll(async () => Object.keys(await keptPhotos()).filter((name) => name.endsWith('.tiles')).length)
      .toBe(1)
    // Their file is there while they are made; the page is told when they are.
    await expect.poll(() => words(line), { timeout: 60_000 }).not.toMatch(/smaller copies/)
    // To where a pixel of the photo is some pixels of the screen.
    for (let i = 0; i < 7; i += 1) await page.getByRole('button', { name: 'Nearer' }).click()
    const [x, y] = await middle()
    const contrast = () =>
      page.evaluate(
        ([x, y]) => {
          const canvas = document.querySelector<HTMLCanvasElement>('.maplibregl-canvas')!
          const into = new OffscreenCanvas(64, 1).getContext('2d')!
          into.drawImage(canvas, -x! * devicePixelRatio, -y! * devicePixelRatio)
          const { data } = into.getImageData(0, 0, 64, 1)
          const green = Array.from({ length: 64 }, (_, i) => data[4 * i + 1]!)
          return Math.max(...green) - Math.min(...green)
        },
        [x + 40, y + 30],
      )
    await expect.poll(contrast, { timeout: 20_000 }).toBeGreaterThan(150)
  })
})
