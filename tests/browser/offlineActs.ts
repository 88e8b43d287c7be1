import { createHash } from 'node:crypto'
import { cp, mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { parse } from 'csv-parse/sync'
import { unzipSync } from 'fflate'
import type { Page } from 'playwright-core'
import { newProfile, servePage, startBrowser } from './harness.ts'
import { goToSheet, openDemo, openPage } from './pageActs.ts'

const BUILT = resolve(import.meta.dirname, '../../dist')

/** Opens the entry of the farm's menu that tells how the page is kept. */
export async function openDevice(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  await page.getByRole('button', { name: 'On this device' }).click()
  await page
    .getByRole('dialog')
    .getByText(/a network/)
    .first()
    .waitFor()
}

/** Settles when the page says that it works without a network. */
export async function waitUntilKept(page: Page): Promise<void> {
  await openDevice(page)
  await page.getByText('Works without a network.').waitFor({ timeout: 120_000 })
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
}

/** A copy of the build that is a newer one: its page is named `name`, and all that follows from that. */
export async function newerBuild(name: string): Promise<string> {
  const dir = await mkdtemp(join(tmpdir(), 'selion-newer-'))
  await cp(BUILT, dir, { recursive: true, filter: (path) => !path.endsWith('.br') })
  const page = await readFile(join(dir, 'index.html'), 'utf8')
  const worker = await readFile(join(dir, 'sw.js'), 'utf8')
  const newPage = page.replace(/(selion-build" content=")\w+/, `$1${name}`)
  const sum = (text: string) => createHash('sha256').update(text).digest('base64')
  const version = /version:`(\w+)`/.exec(worker)![1]!
  await writeFile(join(dir, 'index.html'), newPage)
  await writeFile(join(dir, 'sw.js'), worker.replace(sum(page), sum(newPage)).replaceAll(version, name))
  return dir
}

/** The picks of the farm that is open, as it would be saved. */
export async function savedPicks(page: Page): Promise<Record<string, string>[]> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as an archive' }).click(),
  ])
  const files = unzipSync(new Uint8Array(await readFile(await download.path())))
  return parse(new TextDecoder().decode(files['picks.csv']), { columns: true, record_delimiter: '\r\n' })
}

/** Quantities from here on stand in no farm: they tell the picks of these trials apart. */
const FIRST = 5000

/** What came of trials: what was confirmed before each end, and how often each stands in the farm. */
export interface Survival {
  readonly confirmed: readonly number[]
  readonly there: ReadonlyMap<number, number>
  readonly kills: number
}

/** A page kept on a device, its server and its browser stopped: where it was served, and what it showed last. */
export interface KeptPage {
  readonly url: string
  readonly profile: string
  /** The picking sheet of the farm that is kept there. */
  readonly at: string
}

/** Keeps the page with the demo farm on a new device; the caller removes its profile. */
export async function keepPage(): Promise<KeptPage> {
  const site = await servePage()
  const profile = await newProfile()
  const browser = await startBrowser(site.url, profile, { offline: true })
  try {
    const page = await openPage(browser)
    await openDemo(page)
    await goToSheet(page, 'picking')
    await waitUntilKept(page)
    return { url: site.url, profile, at: new URL(page.url()).hash }
  } finally {
    await browser.close()
    await site.close()
  }
}

/**
 * Enters picks one behind another through the page as it stands on the device, and ends the browser with SIGKILL at
 * moments that `random` gives, in the middle of entering or of opening, then opens it again on the same profile; at last
 * enters what is left of `entries`.
 */
export async function pickAndKill(
  { url, profile, at }: KeptPage,
  kills: number,
  entries: number,
  random: () => number,
): Promise<Survival> {
  let browser = await startBrowser(url, profile, { offline: true })
  try {
    let page = await openPage(browser, at)
    await farmShown(page)
    const confirmed: number[] = []
    let next = FIRST
    for (let kill = 0; kill < kills; kill++) {
      const whileOpening = random() < 0.2
      if (!whileOpening) {
        const wanted = Math.max(1, Math.ceil((entries - confirmed.length) / (kills - kill)))
        const until = confirmed.length + Math.ceil(random() * 2 * wanted)
        await entering(page, next, confirmed, () => confirmed.length >= until)
        // And then at any moment within the next entry.
        await page.waitForTimeout(random() * 150)
        next = 1 + Number(await page.evaluate('globalThis.begun'))
      }
      await browser.kill()
      browser = await startBrowser(url, profile, { offline: true })
      if (whileOpening) {
        void browser.open(at).catch(() => undefined)
        await new Promise((go) => setTimeout(go, random() * 4000))
        await browser.kill()
        browser = await startBrowser(url, profile, { offline: true })
      }
      page = await openPage(browser, at)
      await farmShown(page)
    }
    const { ended } = await entering(page, next, confirmed, () => confirmed.length >= entries)
    await page.evaluate('globalThis.enough = true')
    await ended
    const there = new Map<number, number>()
    for (const { quantity } of await savedPicks(page)) {
      const told = Number(quantity)
      if (told >= FIRST) there.set(told, (there.get(told) ?? 0) + 1)
    }
    return { confirmed, there, kills }
  } finally {
    await browser.close()
  }
}

/** The farm that stands open; or the first that is kept here, where the browser ended before it had noted which was open. */
export async function farmShown(page: Page): Promise<void> {
  const kept = page.locator('.kept-farms li > button').first()
  await kept.or(page.locator('.table-pane')).first().waitFor({ state: 'attached' })
  if ((await kept.count()) > 0) await kept.click()
  await page.locator('.table-pane[aria-busy="false"]').waitFor({ state: 'attached' })
}

/** Has the page enter picks of rising quantities by its own buttons, and returns when `done`; it goes on until it is told that it is enough. */
async function entering(
  page: Page,
  from: number,
  confirmed: number[],
  done: () => boolean,
): Promise<{ readonly ended: Promise<void> }> {
  await page.locator('.place').first().waitFor()
  let settle: () => void
  let fail: (why: Error) => void
  const enough = new Promise<void>((go, stop) => {
    settle = go
    fail = stop
  })
  await page.exposeFunction('confirmed', (n: number) => {
    confirmed.push(n)
    if (done()) settle()
  })
  const ended = page.evaluate(enterAll, from).catch((why: Error) => fail(why))
  await enough
  return { ended }
}

/** In the page: taps a place, the digits and Keep, waits until the page says that it is kept, and says so. */
async function enterAll(from: number): Promise<void> {
  const { confirmed } = globalThis as unknown as { confirmed: (n: number) => Promise<void> }
  const form = () => document.querySelector<HTMLFormElement>('.pick-entry')
  const button = (words: string) =>
    [...form()!.querySelectorAll('button')].find((one) => one.textContent!.trim() === words)!
  /** Waits until something is there, as a person would; what never comes is told with what stands there instead. */
  const until = async (what: string, isThere: () => boolean) => {
    const latest = performance.now() + 60_000
    while (!isThere()) {
      if (performance.now() > latest) throw new Error(`${what} never came: ${form()?.textContent}`)
      await new Promise((go) => setTimeout(go, 0))
    }
  }
  const place = () => form()?.querySelector<HTMLButtonElement>('.place:not(.find-me)')
  for (let n = from; !('enough' in globalThis); n++) {
    Object.assign(globalThis, { begun: n })
    await until('a place', () => Boolean(place()))
    place()!.click()
    for (const digit of String(n)) button(digit).click()
    await until('the quantity', () => form()!.querySelector('input')!.value === String(n))
    button('Keep this pick').click()
    const words = () =>
      form()
        ?.querySelector('.pick-kept')
        ?.textContent?.replace(/[^\d:.]/g, '') ?? ''
    await until(`the pick of ${n}`, () => words().startsWith(`:${n}`))
    await confirmed(n)
  }
}
