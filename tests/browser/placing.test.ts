import { readFile } from 'node:fs/promises'
import { unzipSync } from 'fflate'
import geodesic from 'geographiclib-geodesic'
import type { CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type TagsTold, taggedJpeg } from '../unit/photo/taggedJpeg.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, PHONE_SIZE, planShown, startFarm, words } from './pageActs.ts'

const WIDTH = 400
const HEIGHT = 300

let held: HeldPage
let page: Page
let touch: CDPSession
let picture: Uint8Array

beforeAll(async () => {
  held = await holdPage({ painted: true })
  page = held.page
  page.setDefaultTimeout(15_000)
  touch = await held.browser.context.newCDPSession(page)
  picture = Uint8Array.from(await page.evaluate(madePicture, [WIDTH, HEIGHT] as const))
})
afterAll(() => held?.close())

/** A green JPEG whose lower right quarter is red. */
async function madePicture([width, height]: readonly [number, number]): Promise<number[]> {
  const canvas = new OffscreenCanvas(width, height)
  const context = canvas.getContext('2d')!
  context.fillStyle = '#4a7a3a'
  context.fillRect(0, 0, width, height)
  context.fillStyle = '#d01818'
  context.fillRect(width / 2, height / 2, width / 2, height / 2)
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 1 })
  return [...new Uint8Array(await blob.arrayBuffer())]
}

async function openPicture(name: string, tags: TagsTold = {}): Promise<void> {
  await page
    .locator('.table-pane .file input')
    .setInputFiles({ name, mimeType: 'image/jpeg', buffer: Buffer.from(taggedJpeg(picture, tags)) })
  await page.locator('.picture-pane canvas').waitFor()
  await page.locator('.marking').waitFor({ state: 'attached' })
}

/** Where a spot of the picture, seen whole, is on the screen. */
async function spotAt(col: number, row: number): Promise<[number, number]> {
  const { x, y, width, height } = (await page.locator('.picture-ground canvas').boundingBox())!
  const scale = Math.min(width / WIDTH, height / HEIGHT)
  return [x + (width - scale * WIDTH) / 2 + scale * col, y + (height - scale * HEIGHT) / 2 + scale * row]
}

async function clickSpot(col: number, row: number): Promise<void> {
  await page.mouse.click(...(await spotAt(col, row)))
}

/** A place on the map, in pixels from its upper left corner. */
async function mapAt(x: number, y: number): Promise<[number, number]> {
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  return [box.x + x, box.y + y]
}

const finger = async (type: 'touchStart' | 'touchMove' | 'touchEnd', at: readonly [number, number] | null) => {
  await touch.send('Input.dispatchTouchEvent', { type, touchPoints: at ? [{ x: at[0], y: at[1] }] : [] })
}
const tapByFinger = async (at: readonly [number, number]) => {
  await finger('touchStart', at)
  await finger('touchEnd', null)
}

const panel = () => page.locator('.placing')
const placeEntry = (n: number) => panel().getByLabel(`Place of point ${n}`)
const typePlace = async (n: number, text: string) => {
  await placeEntry(n).fill(text)
  await placeEntry(n).press('Tab')
}
const pointLine = (n: number) =>
  panel()
    .locator('.place-points')
    .first()
    .locator('li')
    .nth(n - 1)
const markIn = (where: 'picture' | 'map', n: number) =>
  page.getByRole('button', { name: new RegExp(`^Point ${n} ${where === 'map' ? 'on the map' : 'in the picture'}`) })
const middleOf = async (n: number, where: 'picture' | 'map'): Promise<[number, number]> => {
  const { x, y, width, height } = (await markIn(where, n).boundingBox())!
  return [x + width / 2, y + height / 2]
}
const undone = () => words(page.locator('.steps .step-name').first())
/** A button of a photo's line, whose name a screen reader hears with the photo's. */
const deed = (what: string, name: string) => page.getByRole('button', { name: new RegExp(`^${what} ?: ${name}`) })
const lines = () => page.locator('.photos li')

interface Told {
  name: string
  on: string | null
  corners: [number, number][]
  control_points: { col: number; row: number; lon: number; lat: number }[]
  residuals: { fit: string; rmse_m: number; points: { off_m: number; left_out_m: number | null }[] }
  placed_by: { fit: string; plane: [number, number]; tapes: { length_m: number }[] }
  opacity?: number
  shown?: boolean
  pile?: number
}

/** The farm's archive, as it is saved; and its photos.json. */
async function saved(): Promise<{ zip: Buffer; photos: Told[] }> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as an archive' }).click(),
  ])
  const zip = await readFile(await download.path())
  const file = unzipSync(new Uint8Array(zip))['photos.json']
  return { zip, photos: JSON.parse(new TextDecoder().decode(file)) as Told[] }
}

async function newFarm(name: string, place: string): Promise<void> {
  await page.setViewportSize(DESK_SIZE)
  if (await page.getByRole('button', { name: 'Farm', exact: true }).isVisible()) {
    await page.getByRole('button', { name: 'Farm', exact: true }).click()
    await page.getByRole('button', { name: 'Other farms' }).click()
  }
  await startFarm(page, name, place)
}

const apartM = ([lon1, lat1]: readonly [number, number], [lon2, lat2]: readonly [number, number]): number =>
  geodesic.Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2).s12!

/** Colour of the map at a place on it. */
const mapColour = async (x: number, y: number): Promise<number[]> => {
  await page.waitForTimeout(300)
  return page.evaluate(
    ([x, y]) => {
      const map = document.querySelector<HTMLCanvasElement>('.maplibregl-canvas')!
      const canvas = new OffscreenCanvas(map.width, map.height)
      const context = canvas.getContext('2d')!
      context.drawImage(map, 0, 0)
      const perPixel = map.width / map.clientWidth
      return [...context.getImageData(Math.round(x! * perPixel), Math.round(y! * perPixel), 1, 1).data]
    },
    [x, y],
  )
}

describe('a picture placed by points', () => {
  it('by mouse: spots and places in turn, typed in any form, the bad one named, kept as one step', async () => {
    await newFarm('Sunny Bank', '46.3374, 15.6412')
    await openPicture('from a kite.jpg')
    expect(await axeFinds(page)).toEqual([])
    // 0.2 m a pixel, north up, its middle the farm's: typed in metres, in minutes and seconds, and with commas.
    await clickSpot(50, 50)
    await typePlace(1, '-30 m, 20 m')
    await clickSpot(350, 50)
    await typePlace(2, '30 m E, 20 m N')
    await expect.poll(() => words(panel())).toMatch(/Nothing checks these points yet/)
    await clickSpot(350, 250)
    await typePlace(3, 'somewhere')
    expect(await words(pointLine(3))).toMatch(/can’t be read as a place/)
    expect(await placeEntry(3).inputValue()).toBe('somewhere')
    await typePlace(3, '15.6412, 46.3374')
    expect(await words(pointLine(3))).toMatch(/km from the farm’s middle. Latitude is written first/)
    await typePlace(3, '30 m; -20 m')
    await expect.poll(() => words(panel().locator('.figure-value'))).toMatch(/^0\.\d\d m$/)
    await clickSpot(50, 250)
    await typePlace(4, '-30 m, -20 m')
    await clickSpot(200, 150)
    await typePlace(5, '46°20′14,64″N 15°38′28,32″E')
    // The middle of the map is the farm's; the picture's lower right quarter is red there.
    const { width, height } = (await page.locator('.maplibregl-canvas').boundingBox())!
    const [r, g] = await mapColour(width / 2 + 12, height / 2 + 12)
    expect(r).toBeGreaterThan(180)
    expect(g).toBeLessThan(90)

    // 4 m too far east: named in words, by number.
    await typePlace(2, '34 m, 20 m')
    await expect
      .poll(() => words(panel().locator('.place-outcome')))
      .toMatch(
        /Point 2 fits worst: [\d.]+ m off; the others would put it [34]\.\d+ m away\. Look at it again: without it they agree to 0\.\d\d m/,
      )
    await typePlace(2, '30 m, 20 m')
    await expect.poll(() => words(panel().locator('.place-outcome'))).not.toMatch(/Look at it again/)

    // Dragged on the picture, its error grows; dragged back by its mark.
    const from = await middleOf(1, 'picture')
    await page.mouse.move(...from)
    await page.mouse.down()
    await page.mouse.move(from[0] + 40, from[1], { steps: 4 })
    await page.mouse.up()
    await expect.poll(() => words(pointLine(1))).toMatch(/[1-9]\.\d+ m off/)
    await page.mouse.move(from[0] + 40, from[1])
    await page.mouse.down()
    await page.mouse.move(...from, { steps: 4 })
    await page.mouse.up()
    await expect.poll(() => words(pointLine(1))).toMatch(/0\.\d\d m off/)

    await panel().getByLabel('Day it was taken').fill('2025-06-01')
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await lines().waitFor()
    expect(await undone()).toBe('Add the photo from a kite.jpg')
    expect(await words(lines())).toMatch(/Placed by 5 points, 0\.\d\d m root mean square error/)
    const { photos } = await saved()
    const [photo] = photos
    expect(photo).toMatchObject({ on: '2025-06-01', residuals: { fit: 'similarity' } })
    expect(photo!.control_points).toHaveLength(5)
    expect(photo!.residuals.points[0]!.left_out_m).toBeGreaterThan(photo!.residuals.points[0]!.off_m)
    // 400 × 300 pixels of 0.2 m: 80 m by 60 m on the ellipsoid, to what a click on the screen may be off (GeographicLib; X).
    expect(Math.abs(apartM(photo!.corners[0]!, photo!.corners[1]!) - 80)).toBeLessThan(0.3)
    expect(Math.abs(apartM(photo!.corners[1]!, photo!.corners[2]!) - 60)).toBeLessThan(0.3)
  })

  it('is taken back as one step and done again, and comes back from its archive just as it was', async () => {
    await page.keyboard.press('Control+z')
    await lines().waitFor({ state: 'detached' })
    await page.keyboard.press('Control+Shift+z')
    await lines().waitFor()
    const { zip, photos } = await saved()
    await page.getByRole('button', { name: 'Farm', exact: true }).click()
    await page.getByRole('button', { name: 'Other farms' }).click()
    await page
      .locator('.way input[accept*="zip"]')
      .setInputFiles({ name: 'back.zip', mimeType: 'application/zip', buffer: zip })
    await planShown(page)
    await lines().waitFor()
    expect((await saved()).photos).toEqual(photos)
  })

  it('by keys alone: marked in the middle, placed, moved, removed; and given up without a trace', async () => {
    await deed('Place anew', 'from a kite.jpg').click()
    await markIn('map', 5).waitFor()
    for (let n = 5; n >= 3; n -= 1) {
      await markIn('picture', n).focus()
      await page.keyboard.press('Delete')
    }
    await page.locator('.picture-ground canvas').focus()
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowLeft')
    await page.keyboard.press('+')
    await page.keyboard.press('-')
    await page.keyboard.press('Enter')
    expect(await words(panel())).toMatch(/Click where point 3 lies on the map/)
    await page.locator('.maplibregl-canvas').focus()
    await page.keyboard.press('Enter')
    await markIn('map', 3).waitFor()
    const before = await placeEntry(3).inputValue()
    await markIn('map', 3).focus()
    await page.keyboard.press('ArrowRight')
    await page.keyboard.press('Shift+ArrowUp')
    const now = await placeEntry(3).inputValue()
    const [lat1, lon1] = before.split(', ').map(Number)
    const [lat2, lon2] = now.split(', ').map(Number)
    expect(lon2).toBeGreaterThan(lon1!)
    expect(lat2).toBeGreaterThan(lat1!)
    await markIn('picture', 3).focus()
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => words(pointLine(3))).toMatch(/m off/)
    const steps = await undone()
    await page.getByRole('button', { name: 'Give up' }).click()
    await panel().waitFor({ state: 'detached' })
    expect(await undone()).toBe(steps)
    await expect.poll(() => page.locator('.mark').count()).toBe(0)
    expect(await words(lines())).toMatch(/Placed by 5 points/)
  })

  it('by finger, on a phone, in perspective', async () => {
    await page.setViewportSize(PHONE_SIZE)
    await page.getByRole('button', { name: 'Table', exact: true }).click()
    await deed('Place anew', 'from a kite.jpg').click()
    await markIn('map', 5).waitFor()
    expect(await axeFinds(page)).toEqual([])
    const box = (await markIn('picture', 1).boundingBox())!
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44)
    await panel().getByText('Perspective', { exact: true }).click()
    await tapByFinger(await spotAt(120, 200))
    await expect.poll(() => words(panel())).toMatch(/Click where point 6 lies on the map/)
    await tapByFinger(await mapAt(30, 200))
    await markIn('map', 6).waitFor()
    const from = await middleOf(6, 'map')
    await finger('touchStart', from)
    await finger('touchMove', [from[0] + 10, from[1] - 12])
    await finger('touchMove', [from[0] + 20, from[1] - 24])
    await finger('touchEnd', null)
    const to = await middleOf(6, 'map')
    expect([to[0] - from[0], to[1] - from[1]].map(Math.round)).toEqual([20, -24])
    await expect.poll(() => words(panel().locator('.place-outcome'))).toMatch(/root mean square error of 6 points/)
    await pointLine(6)
      .getByRole('button', { name: /^Remove/ })
      .click()
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await panel().waitFor({ state: 'detached' })
    await page.setViewportSize(DESK_SIZE)
    await expect.poll(undone).toBe('Place the photo from a kite.jpg anew')
    expect((await saved()).photos[0]!.placed_by.fit).toBe('projective')
    await page.keyboard.press('Control+z')
    await expect.poll(undone).not.toBe('Place the photo from a kite.jpg anew')
  })
})

describe('a farm with nothing yet', () => {
  it('is laid out by a taped distance alone, in true metres, once it is told roughly where', async () => {
    await newFarm('Long Acre', '')
    await openPicture('from a ladder.jpg')
    expect(await words(panel())).toMatch(/Say roughly where the picture lies/)
    await clickSpot(100, 150)
    await clickSpot(300, 150)
    await panel().getByRole('button', { name: 'Add a taped distance' }).click()
    await panel().getByLabel('Taped distance, m').fill('25,4')
    await panel().getByLabel('Middle of the picture').fill('52.1 N 3.7 W')
    await panel().getByLabel('Middle of the picture').press('Tab')
    await panel()
      .getByLabel(/^Its top looks to/)
      .fill('90')
    await panel()
      .getByLabel(/^Its top looks to/)
      .press('Tab')
    await expect.poll(() => words(panel())).toMatch(/by its taped distance and the rough place alone/)
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await lines().waitFor()
    expect(await words(lines())).toMatch(/Placed by a taped distance/)
    const [photo] = (await saved()).photos
    const [upperLeft, upperRight, , lowerLeft] = photo!.corners as [
      [number, number],
      [number, number],
      [number, number],
      [number, number],
    ]
    // 400 pixels where 200 are 25.4 m, to half a pixel of the screen at either end; on the ellipsoid (GeographicLib; X).
    expect(Math.abs(apartM(upperLeft, upperRight) - 50.8)).toBeLessThan(0.3)
    // Its top looks east: its left side runs there.
    const { azi1 } = geodesic.Geodesic.WGS84.Inverse(lowerLeft[1], lowerLeft[0], upperLeft[1], upperLeft[0])
    expect(azi1).toBeCloseTo(90, 1)
    expect(photo!.placed_by.plane).toEqual([-3.7, 52.1])
    // The farm has its plane there from now on, so that metres can be typed.
    await deed('Place anew', 'from a ladder.jpg').click()
    await markIn('picture', 2).waitFor()
    await typePlace(1, '0 m, 10 m')
    await expect.poll(() => words(panel())).not.toMatch(/can’t|no middle/)
    await page.getByRole('button', { name: 'Give up' }).click()
  })

  it('lies where a drone’s picture says, looking as it did, on its day', async () => {
    await newFarm('From the air', '')
    await openPicture('flown.jpg', {
      lat: [46, 20, 1464, 'N'],
      lon: [15, 38, 2832, 'E'],
      altitudeCm: 31_250,
      headingTimes100: 9000,
      filmFocalMm: 24,
      taken: '2025:06:01 11:52:07',
    })
    expect(await words(panel())).toMatch(
      /46\.3374.*15\.6412.*312\.5 m above the sea, looking to 90°.*50\.00 m is assumed/s,
    )
    expect(await panel().getByLabel('Day it was taken').inputValue()).toBe('2025-06-01')
    await panel()
      .getByLabel(/^Flown above the ground/)
      .fill('60')
    await panel()
      .getByLabel(/^Flown above the ground/)
      .press('Tab')
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await lines().waitFor()
    const [photo] = (await saved()).photos
    expect(photo!.on).toBe('2025-06-01')
    const corners = photo!.corners
    // The diagonal of 36 × 24 mm film behind 24 mm at 60 m (CIPA DCG-001, C2; similar triangles by hand).
    expect(apartM(corners[0]!, corners[2]!)).toBeCloseTo((60 * Math.hypot(36, 24)) / 24, 2)
    const middle = [0, 1].map((k) => corners.reduce((sum, corner) => sum + corner[k]!, 0) / 4)
    expect(apartM(middle as [number, number], [15.6412, 46.3374])).toBeLessThan(0.01)
  })
})

describe('several photos', () => {
  it('keep their order, strength, day and whether they are shown, each as a step, also after a reload', async () => {
    await openPicture('second.jpg')
    await clickSpot(50, 50)
    await typePlace(1, '-30 m, 20 m')
    await clickSpot(350, 50)
    await typePlace(2, '30 m, 20 m')
    await page.getByRole('button', { name: 'Keep this photo' }).click()
    await expect.poll(() => lines().count()).toBe(2)
    const names = () => page.locator('.photo-name').allInnerTexts()
    expect(await names()).toEqual(['second.jpg', 'flown.jpg'])
    await deed('Lower', 'second.jpg').click()
    await expect.poll(names).toEqual(['flown.jpg', 'second.jpg'])
    // What is changed right behind a step, while the photos are listed anew for that, never shows otherwise meanwhile.
    const ticks = page.evaluate(
      () =>
        new Promise<boolean[]>((done) => {
          const step = document.querySelector('.steps .step-name')!
          const tick = [...document.querySelectorAll<HTMLInputElement>('.photo-deeds input[type=checkbox]')].find(
            (input) => /^shown ?: second/.test(input.labels![0]!.textContent!),
          )!
          const seen: boolean[] = []
          const look = () => {
            seen.push(tick.checked)
            if (step.textContent === 'Hide photo second.jpg') done(seen)
            else requestAnimationFrame(look)
          }
          const told = new MutationObserver(() => {
            if (step.textContent !== 'Photo flown.jpg at 40 %') return
            told.disconnect()
            tick.click()
            look()
          })
          told.observe(step, { characterData: true, childList: true, subtree: true })
        }),
    )
    await page.getByLabel('Strength of flown.jpg').fill('40')
    expect(new Set(await ticks)).toEqual(new Set([false]))
    await page.getByLabel(/^Taken ?: second\.jpg/).fill('2024-05-31')
    await expect.poll(undone).toBe('Day of photo second.jpg')
    await page.reload()
    await planShown(page)
    await expect.poll(() => lines().count()).toBe(2)
    expect(await names()).toEqual(['flown.jpg', 'second.jpg'])
    expect(await page.getByLabel(/^shown ?: second\.jpg/).isChecked()).toBe(false)
    expect(await page.getByLabel('Strength of flown.jpg').inputValue()).toBe('40')
    expect(await page.getByLabel(/^Taken ?: second\.jpg/).inputValue()).toBe('2024-05-31')
    for (const photo of (await saved()).photos)
      expect(photo).toMatchObject(
        photo.name === 'flown.jpg' ? { opacity: 0.4, pile: 1 } : { shown: false, pile: 0, on: '2024-05-31' },
      )
    await page.keyboard.press('Control+z')
    await expect.poll(() => page.getByLabel(/^Taken ?: second\.jpg/).inputValue()).toBe('')
    expect(await axeFinds(page)).toEqual([])
  })
})
