import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page, Worker } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from '../browser/holdPage.ts'
import { choosePhotos, tilesWorkerOf } from '../browser/largePhotoActs.ts'
import { hasGdal } from '../browser/largeTiffs.ts'
import { goToSheet, startFarm } from '../browser/pageActs.ts'
import { ms, useFigures } from './figures.ts'
import { rendererMB } from './rendererMB.ts'

const MB = 1e6
const LEAST_FILE_MB = 400
/** What a large photo may add to the page's memory: the cache's limit, the map's tiles, and what is under way. */
const MOST_MORE_MB = 350
const MOST_FRAME_MS = 50
const MOST_TILE_MS = 300

/** A seeded picture of noise at several sizes, as a photo has it: GDAL draws it larger. */
function noisePicture(width: number, height: number): Uint8Array {
  let state = 20261125
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
  const out = new Uint8Array(3 * width * height)
  const coarse = Array.from({ length: 64 * 64 }, random)
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const bed = Math.floor(y / 12) % 2 === 0 ? 30 : 0
      const large = coarse[(Math.floor(y / 25) % 64) * 64 + (Math.floor(x / 25) % 64)]!
      const level = 60 + 70 * large + 40 * random()
      out.set([level, level + bed, level * 0.7], 3 * (y * width + x))
    }
  return out
}

const WIDTH = 1200
const HEIGHT = 1050

describe.skipIf(!hasGdal)('a GeoTIFF of hundreds of megabytes with overviews, in Chromium', () => {
  const tell = useFigures()
  let folder: string
  let held: HeldPage
  let page: Page
  let worker: Worker
  let file: string
  let fileMB: number
  let beforeMB: number
  let mostMB = 0
  let emptyMs: number

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'selion-bench-'))
    writeFileSync(join(folder, 'noise.raw'), noisePicture(WIDTH, HEIGHT))
    const bands = [0, 1, 2].map(
      (b) =>
        `<VRTRasterBand dataType="Byte" band="${b + 1}" subClass="VRTRawRasterBand"><SourceFilename relativetoVRT="1">noise.raw</SourceFilename><ImageOffset>${b}</ImageOffset><PixelOffset>3</PixelOffset><LineOffset>${3 * WIDTH}</LineOffset></VRTRasterBand>`,
    )
    writeFileSync(
      join(folder, 'noise.vrt'),
      `<VRTDataset rasterXSize="${WIDTH}" rasterYSize="${HEIGHT}"><SRS>EPSG:32633</SRS><GeoTransform>500000,0.5,0,5400000,0,-0.5</GeoTransform>${bands.join('')}</VRTDataset>`,
    )
    file = join(folder, 'large.tif')
    const size = ['-outsize', String(10 * WIDTH), String(10 * HEIGHT), '-r', 'bilinear']
    execFileSync('gdal_translate', ['-q', ...size, '-co', 'TILED=YES', join(folder, 'noise.vrt'), file])
    execFileSync('gdaladdo', ['-q', '-r', 'average', file, '2', '4', '8', '16', '32'])
    fileMB = statSync(file).size / MB
    held = await holdPage({ sharp: true, tuned: true })
    page = held.page
    await startFarm(page, 'Bench', '48.7511, 15.0041')
    await goToSheet(page, 'ground')
    await page.waitForTimeout(3000)
    await page.evaluate(() => {
      const frames: number[] = []
      let last = performance.now()
      const next = (now: number) => {
        frames.push(now - last)
        last = now
        requestAnimationFrame(next)
      }
      requestAnimationFrame(next)
      Object.assign(globalThis, { frames })
    })
    await pan()
    emptyMs = at(await takeFrames(), 0.5)
    beforeMB = await rendererMB(held.browser)
  })
  afterAll(async () => {
    try {
      await held?.close()
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  const sample = async () => {
    mostMB = Math.max(mostMB, await rendererMB(held.browser))
  }

  const at = (values: readonly number[], share: number) =>
    [...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? Number.NaN

  /** Drags the map round in a square, and leaves the pointer in its middle. */
  const pan = async () => {
    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    for (const [dx, dy] of [
      [-350, 0],
      [0, -250],
      [350, 0],
      [0, 250],
    ] as const) {
      await page.mouse.move(x - dx / 2, y - dy / 2)
      await page.mouse.down()
      await page.mouse.move(x + dx / 2, y + dy / 2, { steps: 20 })
      await page.mouse.up()
    }
    await page.mouse.move(x, y)
  }
  /** Times between frames since last asked, in ms. */
  const takeFrames = () => page.evaluate('frames.splice(0)') as Promise<number[]>

  it('is kept without being held in memory', async () => {
    const begun = performance.now()
    await choosePhotos(page, [file])
    while ((await page.locator('.photos li').count()) === 0) {
      await sample()
      await page.waitForTimeout(100)
    }
    tell('file', `${Math.round(fileMB)} MB, ${10 * WIDTH} × ${10 * HEIGHT} pixels`, `≥ ${LEAST_FILE_MB} MB`)
    tell('copied and recorded', ms(performance.now() - begun), '')
    tell('load of the machine meanwhile', loadavg()[0]!.toFixed(1), '')
    expect(fileMB).toBeGreaterThan(LEAST_FILE_MB)
    worker = await tilesWorkerOf(page)
    await worker.evaluate(() => {
      const scope = self as unknown as {
        tileMs: number[]
        onmessage: (event: MessageEvent) => void
        postMessage: (message: { n: number }, transfer: Transferable[]) => void
      }
      scope.tileMs = []
      const asked = new Map<number, number>()
      const [take, give] = [scope.onmessage, scope.postMessage.bind(self)]
      scope.onmessage = (event) => {
        if (event.data.name === 'draw') asked.set(event.data.n, performance.now())
        take.call(self, event)
      }
      scope.postMessage = (message, transfer) => {
        const from = asked.get(message.n)
        if (from !== undefined && transfer.length > 0) scope.tileMs.push(performance.now() - from)
        asked.delete(message.n)
        give(message, transfer)
      }
    })
  })

  it('is panned and zoomed at interactive speed, in bounded memory', async () => {
    await takeFrames()
    for (let level = 0; level < 6; level += 1) {
      await pan()
      await sample()
      await page.mouse.wheel(0, level < 3 ? -500 : 400)
      await page.waitForTimeout(600)
      await sample()
    }
    const frames = await takeFrames()
    const tiles = await worker.evaluate(() => (self as unknown as { tileMs: number[] }).tileMs)
    tell('frame while panning the empty map, median', ms(emptyMs), '')
    tell(
      'frame while panning over the photo, median',
      ms(at(frames, 0.5)),
      `≤ ${MOST_FRAME_MS} ms, or twice the empty map’s`,
    )
    tell('frame while panning, 95th of 100', ms(at(frames, 0.95)), '')
    tell('tiles drawn', String(tiles.length), '')
    tell('tile from asked to drawn, median', ms(at(tiles, 0.5)), `≤ ${MOST_TILE_MS} ms`)
    tell('tile from asked to drawn, 95th of 100', ms(at(tiles, 0.95)), '')
    tell('memory of the renderer before', `${Math.round(beforeMB)} MB`, '')
    tell('memory of the renderer at most', `${Math.round(mostMB)} MB`, `≤ ${MOST_MORE_MB} MB more`)
    expect(tiles.length).toBeGreaterThan(60)
    expect(at(frames, 0.5)).toBeLessThanOrEqual(Math.max(MOST_FRAME_MS, 2 * emptyMs))
    expect(at(tiles, 0.5)).toBeLessThanOrEqual(MOST_TILE_MS)
    expect(mostMB - beforeMB).toBeLessThanOrEqual(MOST_MORE_MB)
  })
})
