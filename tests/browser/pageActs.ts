import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { AxeResults, RunOptions } from 'axe-core'
import type { Locator, Page } from 'playwright-core'
import type { SheetName } from '../../src/sheets/names.ts'
import type { TestBrowser } from './harness.ts'

export const DESK_SIZE = { width: 1440, height: 900 }
export const PHONE_SIZE = { width: 390, height: 844 }

/** Opens the page at a size; `at` is what follows its address. */
export async function openPage(browser: TestBrowser, at = '', size = DESK_SIZE): Promise<Page> {
  const page = await browser.open(at)
  await page.setViewportSize(size)
  page.setDefaultTimeout(30_000)
  return page
}

/** From the start card to the demo farm with its figures told. */
export async function openDemo(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at the demo farm' }).click()
  await planShown(page)
}

/** From the start card to a farm of one's own at a place (latitude, longitude). */
export async function startFarm(page: Page, name: string, place: string, units = 'Metres, kilograms'): Promise<void> {
  await page.getByRole('button', { name: 'Start my own farm' }).click()
  await page.getByLabel('Name of the farm').fill(name)
  await page.getByText(units).click()
  await page.getByLabel('Where it lies').fill(place)
  await page.getByRole('button', { name: 'Start this farm' }).click()
  await planShown(page)
}

/** Settles when the plan shows the day that it says, and the map is there. */
export async function planShown(page: Page): Promise<void> {
  await page.locator('.table-pane[aria-busy="false"]').waitFor({ state: 'attached' })
  await page.locator('.scale-bar').waitFor()
  await page.locator('.maplibregl-canvas').waitFor()
}

/** Has the page show another day, by its address, which names none where today is shown; settles when the plan is of that day. */
export async function showDay(page: Page, day: string): Promise<void> {
  await page.evaluate((day) => {
    location.hash = location.hash.replace(/^(#\w+)\/[^/]*/, `$1/${day}`)
  }, day)
  await page.locator(`.title-block time[datetime="${day}"]`).waitFor({ state: 'attached' })
  await planShown(page)
}

export async function goToSheet(page: Page, sheet: SheetName): Promise<void> {
  const title = sheet.charAt(0).toUpperCase() + sheet.slice(1)
  await page.getByRole('navigation', { name: 'Sheets' }).getByRole('button', { name: title }).click()
  await page.getByRole('heading', { level: 1, name: title }).waitFor()
}

/** The table's large figure, unit and all. */
export const figure = (page: Page): Locator => page.locator('.figure-value').first()

/** The words that stand there. */
export const words = async (at: Locator): Promise<string> => (await at.allInnerTexts()).join(' ')

/** Settles when the map is as large as its pane, to a pixel or two: a busy page may be late with that. */
export async function mapFills(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const [canvas, map] = ['.maplibregl-canvas', '.maplibregl-map'].map((at) => document.querySelector(at)!)
    return Math.abs(canvas!.clientHeight - map!.clientHeight) < 3
  })
}

/** Takes a drawing tool up, and settles when it can be used: it is fetched first, and may change the map's size. */
export async function takeTool(page: Page, name: string): Promise<void> {
  await page.locator('.strip-tools').getByRole('button', { name, exact: true }).click()
  await mapHears(page)
}

/** Settles when what is drawn by hand is heard by the map. */
export async function mapHears(page: Page): Promise<void> {
  await page.locator('.maplibregl-map.drawing').waitFor()
  await mapFills(page)
}

/** Moves the pointer over the map, to pixels from its upper left corner. */
export async function moveOverMap(page: Page, x: number, y: number): Promise<void> {
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  await page.mouse.move(box.x + x, box.y + y, { steps: 3 })
}

/** Clicks the map as a hand does: there first, then down. */
export async function clickMap(page: Page, x: number, y: number): Promise<void> {
  await moveOverMap(page, x, y)
  await page.mouse.down()
  await page.mouse.up()
}

/** Where the address says that the map looks. */
export function viewOf(page: Page): { lon: number; lat: number; zoom: number } {
  const [lon, lat, zoom] = new URL(page.url()).hash.split('/')[2]!.split(',').map(Number)
  return { lon: lon!, lat: lat!, zoom: zoom! }
}

/** What axe finds amiss on the page, in words; empty when nothing. `rules` are the only ones asked, where given. */
export async function axeFinds(page: Page, rules?: readonly string[]): Promise<string[]> {
  await page.evaluate(await axeSource)
  // Only what is wrong is looked into further.
  const asked: RunOptions = {
    resultTypes: ['violations'],
    selectors: false,
    preload: false,
    ...(rules && { runOnly: [...rules] }),
  }
  const { violations } = (await page.evaluate(`axe.run(${JSON.stringify(asked)})`)) as AxeResults
  return violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.html.slice(0, 160)}`))
}

const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

const TARGETS = 'button, select, summary, .tick, .choice label, .seasons label, input[type="range"]'

/** What a finger can reach there that is lower than 44 pixels, each with its height. */
export function smallTargets(within: Page | Locator): Promise<string[]> {
  return within.locator(`:is(${TARGETS}):visible`).evaluateAll((all) =>
    all
      // What has just gone has no height.
      .filter((one) => one.isConnected && one.getBoundingClientRect().height < 43.9)
      .map((one) => `${one.textContent} ${one.getBoundingClientRect().height}`),
  )
}

/** Taps the map with a finger. */
export async function touchMap(page: Page, x: number, y: number): Promise<void> {
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  await touch(page, box.x + x, box.y + y)
}

/** Taps a thing with a finger, once it is in sight, stands still, and nothing lies over it. */
export async function tap(what: Locator): Promise<void> {
  await what.click({ trial: true })
  let box = await what.boundingBox()
  // It may just be drawn anew.
  for (; !box; box = await what.boundingBox()) await what.page().waitForTimeout(50)
  await touch(what.page(), box.x + box.width / 2, box.y + box.height / 2)
}

/** Presses with a finger, drags it to another place of the page, and lifts it. */
export async function dragByFinger(
  page: Page,
  [x, y]: readonly [number, number],
  [u, v]: readonly [number, number],
): Promise<void> {
  const session = await page.context().newCDPSession(page)
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', at?: { x: number; y: number }) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: at ? [at] : [] })
  try {
    await send('touchStart', { x, y })
    for (const t of [0.25, 0.5, 0.75, 1]) await send('touchMove', { x: x + (u - x) * t, y: y + (v - y) * t })
    await send('touchEnd')
  } finally {
    await session.detach()
  }
}

async function touch(page: Page, x: number, y: number): Promise<void> {
  const session = await page.context().newCDPSession(page)
  try {
    // At once: where a busy page answers the first late, a finger that still lay there would have pressed long.
    await Promise.all([
      session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x, y }] }),
      session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] }),
    ])
  } finally {
    await session.detach()
  }
}
