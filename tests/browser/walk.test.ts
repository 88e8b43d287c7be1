import { readFile } from 'node:fs/promises'
import { unzipSync } from 'fflate'
import type { FeatureCollection, LineString, Polygon } from 'geojson'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { type MadeStep, makeWalk } from '../unit/track/walks.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, PHONE_SIZE, planShown, startFarm, tap, words } from './pageActs.ts'

const ORIGIN: LonLat = [15.6412, 46.3374]
const plane = planeAbout(ORIGIN)
const CORNERS: Metres[] = [
  [-45, -30],
  [45, -34],
  [40, 36],
  [-50, 30],
]
const ACCURACY_M = 4

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage({
    size: PHONE_SIZE,
    ready: ({ context }, { url }) => context.grantPermissions(['geolocation'], { origin: new URL(url).origin }),
  })
  page = held.page
  await startFarm(page, 'Sunny Bank', `${ORIGIN[1]}, ${ORIGIN[0]}`)
})
afterAll(() => held?.close())

const panel = () => page.getByRole('region', { name: 'A walked boundary' })
const button = (name: string) => panel().getByRole('button', { name, exact: true })
const openWalk = () => page.locator('.strip-tools').getByRole('button', { name: 'Walk', exact: true }).click()
const here = ([longitude, latitude]: LonLat, accuracy: number) =>
  held.browser.context.setGeolocation({ longitude, latitude, accuracy })

/** How many positions the panel tells of: while walking all of them, while holding those of the corner. */
const told = async () => {
  const text = await words(panel())
  const held = /mean of ([\d,]+) positions[^;]*(?:; (\d+) left out)?/.exec(text)
  if (held) return Number(held[1]) + Number(held[2] ?? 0)
  return Number(/([\d,]+) positions/.exec(text)?.[1]?.replace(',', '') ?? 0)
}

/** Plays what a device and a person do; each position is waited for, so that none is lost on the way. */
async function play(steps: readonly MadeStep[]): Promise<void> {
  for (const { event } of steps)
    if (event.does === 'fix') {
      const before = await told()
      await here([event.lon, event.lat], event.accuracyM ?? 0)
      await expect.poll(told, { interval: 5, timeout: 20_000 }).not.toBe(before)
    } else if (event.does === 'hold') {
      await button('Hold here').press('Enter')
      await button('Go on').waitFor()
    } else {
      await tap(button('Go on'))
      await button('Hold here').waitFor()
    }
}

/** The archive's features of a kind. */
async function saved<G extends Polygon | LineString>(file: string): Promise<FeatureCollection<G>> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as an archive' }).click(),
  ])
  const files = unzipSync(new Uint8Array(await readFile(await download.path())))
  return JSON.parse(new TextDecoder().decode(files[file])) as FeatureCollection<G>
}

describe('a walked boundary', () => {
  const walk = {
    corners: CORNERS,
    accuracyM: ACCURACY_M,
    drift: 0.4,
    holdFixes: 9,
    outlierIn: 14,
    holds: true,
    stepM: 9,
  }
  const steps = makeWalk(walk, seededRandom(7), plane.toLonLat)
  const half = steps.findIndex(({ event }, n) => event.does === 'hold' && n > steps.length / 2)

  it('says what a phone can’t do, how sure the position is, and when it is of no use', async () => {
    await openWalk()
    expect(await words(panel())).toMatch(/3 to 10 m off[\s\S]*measure them with a tape/)
    expect(await axeFinds(page)).toEqual([])
    await here(ORIGIN, 45)
    await button('Start walking').click()
    await expect.poll(() => words(panel())).toMatch(/± 45 m[\s\S]*of no use/)
    await here(ORIGIN, 14)
    await expect.poll(() => words(panel())).toMatch(/± 14 m[\s\S]*poor/)
    expect(await axeFinds(page)).toEqual([])
    await button('Stop').click()
    await button('Throw it away').click()
    await button('Yes, throw it away').click()
    await expect.poll(() => words(panel())).toMatch(/Start walking/)
  })

  it('survives a page that is closed on the way, and becomes a field whose corners are as true as it says', async () => {
    await tap(button('Start walking'))
    await play(steps.slice(0, half))
    const before = await told()
    await page.reload()
    await planShown(page)
    await openWalk()
    await expect.poll(() => words(panel())).toMatch(new RegExp(`Kept from your walk: ${before} positions, 2 corners`))
    await tap(button('Walk on'))
    await play(steps.slice(half))
    await tap(button('Stop'))
    await page.setViewportSize(DESK_SIZE)
    await expect.poll(() => words(panel().locator('.laid-figures'))).toMatch(/^4\s+corners[\s\S]*± 4\.0 m/)
    expect(await axeFinds(page)).toEqual([])
    await panel().getByLabel('It becomes').selectOption('A bed')
    expect(await words(panel())).toMatch(/Too poor for a bed/)
    await panel().getByLabel('It becomes').selectOption('A field')
    await button('Name it').click()
    const form = page.getByRole('form', { name: 'New field' })
    await form.waitFor()
    expect(await form.getByLabel('Note').inputValue()).toMatch(/Walked with the device.*4 corners.*4\.00 m \(95 in 100/)
    await page.keyboard.press('Enter')
    await page.getByRole('article', { name: 'Field 1' }).waitFor()
    const [field] = (await saved<Polygon>('fields.geojson')).features
    const corners = field!.geometry.coordinates[0]!.slice(0, -1).map(([lon, lat]) => plane.toMetres([lon!, lat!]))
    expect(corners).toHaveLength(4)
    for (const [east, north] of CORNERS) {
      const off = Math.min(...corners.map((corner) => Math.hypot(corner[0] - east, corner[1] - north)))
      expect(off).toBeLessThan(ACCURACY_M)
    }
  })

  it('is taken from a GPX file, simplified by a tolerance that can be seen, and becomes a fence', async () => {
    const fence: Metres[] = [
      [-40, 0],
      [0, 8],
      [30, 0],
    ]
    const next = seededRandom(3)
    const points = [0, 1].flatMap((n) =>
      Array.from({ length: 20 }, (_, k): Metres => {
        const [a, b] = [fence[n]!, fence[n + 1]!]
        const t = k / 20
        return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t + 0.4 * (next() - 0.5)]
      }),
    )
    const trkpt = (at: Metres) => {
      const [lon, lat] = plane.toLonLat(at)
      return `<trkpt lat="${lat}" lon="${lon}"><time>2026-05-01T08:00:00Z</time><hdop>0.8</hdop></trkpt>`
    }
    const gpx = `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
      <trk><name>Hedge</name><trkseg>${[...points, fence[2]!].map(trkpt).join('')}</trkseg></trk>
      <rte><name>Drive</name>${'<rtept lat="46.33" lon="15.64"/><rtept lat="46.34" lon="15.64"/>'}</rte></gpx>`
    await openWalk()
    await panel()
      .locator('input[type="file"]')
      .setInputFiles({
        name: 'walk.gpx',
        mimeType: 'application/gpx+xml',
        buffer: Buffer.from(gpx),
      })
    await panel().getByRole('button', { name: /Hedge/ }).click()
    await panel().getByLabel('It becomes').selectOption('A fence, path or other line')
    const figures = () => words(panel().locator('.laid-figures'))
    await panel().getByLabel('Tolerance, m').fill('1')
    await expect.poll(figures).toMatch(/^3\s+corners/)
    await panel().getByLabel('Tolerance, m').fill('0.05')
    await expect.poll(figures).not.toMatch(/^3\s/)
    await panel().getByLabel('Tolerance, m').fill('1')
    // 0.8 × 5 m, from the file's dilution of precision.
    await expect.poll(figures).toMatch(/^3\s+corners[\s\S]*± 4\.0 m/)
    await button('Name it').click()
    const form = page.getByRole('form', { name: 'New structure' })
    await form.waitFor()
    expect(await form.getByLabel('Kind').inputValue()).toBe('fence')
    await form.getByRole('button', { name: 'Keep this structure' }).click()
    await form.waitFor({ state: 'detached' })
    const kept = (await saved<LineString>('structures.geojson')).features[0]!
    expect(kept.properties!.note).toMatch(/walk\.gpx: 3 corners/)
    kept.geometry.coordinates.forEach(([lon, lat], n) => {
      const [east, north] = plane.toMetres([lon!, lat!])
      expect(Math.hypot(east - fence[n]![0], north - fence[n]![1])).toBeLessThan(1.2)
    })
  })

  it('tells how many positions of a file are left out, and takes them all where that is asked for', async () => {
    const way = Array.from({ length: 30 }, (_, n): Metres => [n * 1.4 - 20, n === 12 ? 60 : 0])
    const points = way.map((at, n) => {
      const [lon, lat] = plane.toLonLat(at)
      const second = String(n).padStart(2, '0')
      return `<trkpt lat="${lat}" lon="${lon}"><time>2026-05-01T08:00:${second}Z</time><hdop>0.8</hdop></trkpt>`
    })
    const gpx = `<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`
    await openWalk()
    await panel()
      .locator('input[type="file"]')
      .setInputFiles({ name: 'spike.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(gpx) })
    await expect.poll(() => words(panel())).toMatch(/spike\.gpx: 30 positions, 1 left out\./)
    await panel().getByLabel('It becomes').selectOption('A fence, path or other line')
    const figures = () => words(panel().locator('.laid-figures'))
    await expect.poll(figures).toMatch(/^2\s+corners/)
    const all = panel().getByLabel('Take all positions, the 1 that lies far off or is too unsure as well')
    await all.check()
    await expect.poll(() => words(panel())).toMatch(/spike\.gpx: 30 positions\./)
    // Up to the spike and back.
    await expect.poll(figures).toMatch(/^5\s+corners/)
    expect(await axeFinds(page)).toEqual([])
    await all.uncheck()
    await expect.poll(figures).toMatch(/^2\s+corners/)
    await button('Leave this track').click()
    await panel()
      .getByRole('button', { name: /^Close/ })
      .press('Enter')
    await panel().waitFor({ state: 'detached' })
  })

  it('tells a file that holds no track', async () => {
    await openWalk()
    await button('Throw it away').click()
    await button('Yes, throw it away').click()
    await panel()
      .locator('input[type="file"]')
      .setInputFiles({
        name: 'none.gpx',
        mimeType: 'application/gpx+xml',
        buffer: Buffer.from('<gpx version="1.1"/>'),
      })
    await expect.poll(() => words(panel())).toMatch(/none\.gpx holds no track or route/)
    await panel()
      .getByRole('button', { name: /^Close/ })
      .press('Enter')
    await panel().waitFor({ state: 'detached' })
  })
})
