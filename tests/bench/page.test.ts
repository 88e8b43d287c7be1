import { readdir, stat } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { OF_DEMO } from '../../src/build/offline.ts'
import { answer, makeFarm } from '../browser/deskPage.ts'
import { newProfile, removeProfile, type Site, serveDesk, servePage, startBrowser } from '../browser/harness.ts'
import { planShown } from '../browser/pageActs.ts'
import { middleOf, ms, useFigures } from './figures.ts'
import { rendererMB } from './rendererMB.ts'

const MOST = { paintMs: 300, coldMs: 4000, warmMs: 2500, rendererMB: 650, downloadMB: 12 }
/** Less than this can't hold the engine: the count would have missed what the worker fetches. */
const LEAST_DOWNLOAD_MB = 8
const MB = 1e6
const TURNS = 3
const BUILT = resolve(import.meta.dirname, '../../dist')

describe('the page with the demo farm, in Chromium', () => {
  const tell = useFigures()
  const fetched = new Map<string, number>()
  const openings: Openings[] = []
  const middle = (what: keyof Openings) => middleOf(openings.map((one) => one[what]))
  const told = (what: keyof Openings) =>
    `${ms(middle(what))}, the middle of ${openings.map((one) => ms(one[what])).join(', ')}`

  beforeAll(async () => {
    for (let turn = 0; turn < TURNS; turn++) openings.push(await openTwice(turn === 0 ? fetched : undefined))
  })

  it('fetches no more than it should, and all that it needs', async () => {
    const bytes = [...fetched.values()].reduce((sum, size) => sum + size, 0)
    tell('download until the demo farm is shown, brotli', `${(bytes / MB).toFixed(2)} MB`, `≤ ${MOST.downloadMB} MB`)
    tell('kept for having no network, the demo farm not among it', `${((await keptBytes()) / MB).toFixed(2)} MB`, '')
    for (const [url, size] of [...fetched].sort((a, b) => b[1] - a[1]).slice(0, 6))
      tell(`of it ${new URL(url).pathname.replace(/.*\//, '')}`, `${(size / MB).toFixed(2)} MB`, '')
    expect(bytes / MB).toBeLessThanOrEqual(MOST.downloadMB)
    expect(bytes / MB).toBeGreaterThanOrEqual(LEAST_DOWNLOAD_MB)
  })

  it('is painted at once', () => {
    tell('first paint', told('paintMs'), `< ${ms(MOST.paintMs)}`)
    expect(middle('paintMs')).toBeLessThan(MOST.paintMs)
  })

  it('has the demo farm ready to use soon after the first opening', () => {
    tell('the demo farm, from nothing', told('coldMs'), `≤ ${ms(MOST.coldMs)}`)
    expect(middle('coldMs')).toBeLessThanOrEqual(MOST.coldMs)
  })

  it('has it ready sooner when it is opened again', () => {
    tell('the demo farm, opened again', told('warmMs'), `≤ ${ms(MOST.warmMs)}`)
    expect(middle('warmMs')).toBeLessThanOrEqual(MOST.warmMs)
  })

  it('tells what the database alone takes on this machine on this day', async () => {
    const { newMs, againMs, version } = await deskAlone()
    tell('Chromium', version, '')
    // Other machines can be held against that: the design has 2,196 ms and 1,352 ms for a database from a template in files.
    tell('a database and its farm, on a page that shows nothing, from nothing', ms(newMs), '')
    tell('the same, opened again', ms(againMs), '')
    expect(againMs).toBeLessThan(newMs)
  })

  it('takes no more memory than a phone has', () => {
    const most = Math.max(...openings.map((one) => one.rendererMB))
    tell('memory of the renderer', `${Math.round(most)} MB`, `≤ ${MOST.rendererMB} MB`)
    expect(most).toBeLessThanOrEqual(MOST.rendererMB)
  })
})

/** The demo farm opened from nothing, by a browser that knows none of it, and once more when every part is kept. */
interface Openings {
  readonly paintMs: number
  readonly coldMs: number
  readonly warmMs: number
  readonly rendererMB: number
}

/** Notes in `fetched`, where it is given, how many bytes came of what until the farm was shown. */
async function openTwice(fetched?: Map<string, number>): Promise<Openings> {
  const [site, profile] = [await servePage(), await newProfile()]
  const browser = await startBrowser(site.url, profile, { offline: true, sharp: true, tuned: true })
  try {
    await browser.context.addInitScript(WATCH)
    const page = await browser.context.newPage()
    const counted = fetched && countBytes(browser.context, site, fetched)
    await settled(page)
    await page.goto(site.url)
    const coldMs = await shownMs(page)
    // What comes behind that is for having no network later.
    const [all, paintMs, memoryMB] = [counted?.(), await firstPaintMs(page), await rendererMB(browser)]
    // Who opens it again has it kept by then.
    await page.evaluate('navigator.serviceWorker.ready.then(() => null)')
    await all
    await page.close()
    const again = await browser.context.newPage()
    await settled(again)
    await again.goto(site.url)
    const warmMs = await shownMs(again)
    await again.close()
    return { paintMs, coldMs, warmMs, rendererMB: memoryMB }
  } finally {
    await browser.close()
    await removeProfile(profile)
    await site.close()
  }
}

/** What it gives ends the count, and waits for what was counted. */
function countBytes(context: BrowserContext, site: Site, fetched: Map<string, number>): () => Promise<unknown> {
  let isOver = false
  const asked: Promise<unknown>[] = []
  context.on('requestfinished', (request) => {
    if (isOver || !request.url().startsWith(site.url)) return
    asked.push(request.sizes().then(({ responseBodySize }) => fetched.set(request.url(), responseBodySize)))
  })
  return () => {
    isOver = true
    return Promise.all(asked)
  }
}

/** How long a page without a map and a sheet takes until its desk has made a farm, and until it has opened that again. */
async function deskAlone(): Promise<{ newMs: number; againMs: number; version: string }> {
  const [site, profile] = [await serveDesk(), await newProfile()]
  const browser = await startBrowser(site.url, profile, { tuned: true })
  try {
    const times: number[] = []
    for (const isNew of [true, false]) {
      const page = await browser.context.newPage()
      await settled(page)
      await page.goto(site.url)
      if (isNew) await makeFarm(page)
      else await answer(page, 'openFarm', { id: (await answer(page, 'listFarms', {}))[0]!.id, takeOver: false })
      times.push(await page.evaluate(() => performance.now()))
      await settled(page)
      await page.close()
    }
    return { newMs: times[0]!, againMs: times[1]!, version: browser.context.browser()!.version() }
  } finally {
    await browser.close()
    await removeProfile(profile)
    await site.close()
  }
}

/** The bytes of what is kept of the build, as it is sent: packed where that is smaller. */
async function keptBytes(): Promise<number> {
  const names = (await readdir(BUILT, { recursive: true, withFileTypes: true }))
    .filter((item) => item.isFile())
    .map((item) => join(item.parentPath, item.name))
  const kept = names.filter((name) => !name.endsWith('.br') && !OF_DEMO.test(name))
  const sent = kept.map((name) => (names.includes(`${name}.br`) ? `${name}.br` : name))
  return (await Promise.all(sent.map(async (name) => (await stat(name)).size))).reduce((sum, size) => sum + size, 0)
}

/** Waits until the browser's own start is over: it is the page that is measured. */
const settled = (page: Page) => page.waitForTimeout(2000)

/**
 * In the page, so that the time is the page's own and not that of what drives it: takes the demo farm as soon as it is
 * offered, and notes when its plan is shown with figures, map and scale.
 */
const WATCH = `{
  let asked = false
  const watch = new MutationObserver(() => {
    const offer = asked ? null : document.querySelector('.start-ways .first-deed')
    if (offer) {
      asked = true
      offer.click()
    }
    const parts = ['.table-pane[aria-busy="false"]', '.scale-bar', '.maplibregl-canvas']
    if (!parts.every((part) => document.querySelector(part))) return
    globalThis.shownMs = performance.now()
    watch.disconnect()
  })
  watch.observe(document, { subtree: true, childList: true, attributes: true })
}`

async function shownMs(page: Page): Promise<number> {
  await planShown(page)
  return (await page.evaluate('globalThis.shownMs')) as number
}

function firstPaintMs(page: Page): Promise<number> {
  return page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]!.startTime)
}
