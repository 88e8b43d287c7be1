import { rm } from 'node:fs/promises'
import type { CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { startServer } from '../../src/cli/startServer.ts'
import { newProfile, removeProfile, type Site, servePage, startBrowser, type TestBrowser } from './harness.ts'
import { farmShown, newerBuild, openDevice, pickAndKill, savedPicks, waitUntilKept } from './offlineActs.ts'
import { axeFinds, openDemo, openPage, PHONE_SIZE, tap, words } from './pageActs.ts'

/** A place on the demo farm between the rows of a bed of its own, and how sure the device is of it. */
const STANDS = { latitude: 46.33725, longitude: 15.6405, accuracy: 3 }

let site: Site
let profile: string
let browser: TestBrowser
let page: Page

async function openAgain(at = ''): Promise<void> {
  browser = await startBrowser(site.url, profile, { offline: true })
  await browser.context.grantPermissions(['geolocation'])
  await browser.context.setGeolocation(STANDS)
  page = await openPage(browser, at)
}

beforeAll(async () => {
  site = await servePage()
  profile = await newProfile()
  await openAgain()
})
afterAll(async () => {
  try {
    await browser?.close()
  } finally {
    await removeProfile(profile)
    await site?.close().catch(() => undefined)
  }
})

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true })
const entry = () => page.getByRole('form', { name: 'Enter a pick' })
const place = (n: number) => entry().locator('.place:not(.find-me)').nth(n)
const close = () => page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
const build = () => page.locator('meta[name="selion-build"]').getAttribute('content')

/** A pick of `digits` by touch: where, how much, done. */
async function pick(digits: string): Promise<void> {
  // The device must have found where it is: what is offered changes with that.
  await entry()
    .getByText(/^You stand .*within 3 m/)
    .waitFor()
  await tap(place(0))
  for (const digit of digits) await tap(entry().getByRole('button', { name: digit, exact: true }))
  await tap(entry().getByRole('button', { name: 'Keep this pick' }))
}

describe('the page on a device', () => {
  it('can be put there, in the eyes of the browser', async () => {
    await openDemo(page)
    await waitUntilKept(page)
    const session = await browser.context.newCDPSession(page)
    const { manifest, errors } = (await session.send('Page.getAppManifest')) as {
      manifest: { name?: string; display?: string; icons?: unknown[] }
      errors: unknown[]
    }
    expect(errors).toEqual([])
    expect(manifest).toMatchObject({ name: 'Selion', display: expect.stringMatching(/standalone/i) })
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
    expect(installabilityErrors).toEqual([])
    await openDevice(page)
    expect(await axeFinds(page)).toEqual([])
    const used = page.getByRole('region', { name: 'Room' }).locator('strong')
    const takenMB = Number((await words(used)).replace(' MB', ''))
    // The build as it is unpacked, and a small database: not what the browser sets aside for its open files.
    expect(takenMB).toBeGreaterThan(50)
    expect(takenMB).toBeLessThan(120)
    await close()
  })

  it('opens with its server stopped, and keeps picks and notes made then, over a reload', async () => {
    await site.close()
    await browser.close()
    await openAgain()
    await farmShown(page)
    await page.setViewportSize(PHONE_SIZE)
    await page.getByLabel('Sheet', { exact: true }).selectOption('picking')
    await pick('777')
    await entry()
      .getByText(/^Kept: 777 /)
      .waitFor()
    await page.getByLabel('Sheet', { exact: true }).selectOption('growing')
    await page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name: 'Card' }).click()
    await tap(button('Note what is seen'))
    const note = page.getByRole('form', { name: 'Note what is seen' })
    await note.getByRole('button', { name: 'Where am I?' }).click()
    await note.getByRole('button', { name: 'Here, within 3 m' }).click()
    await note.getByRole('button', { name: 'crack', exact: true }).click()
    await note.getByLabel('Note').fill('seen with no network')
    await note.getByRole('button', { name: 'Keep this note' }).click()
    await page.getByText('seen with no network').waitFor()

    await page.reload()
    await farmShown(page)
    await browser.context.setOffline(true)
    await page.getByText('no network', { exact: true }).waitFor()
    await browser.context.setOffline(false)
    await page.getByText('no network', { exact: true }).waitFor({ state: 'detached' })
    expect((await savedPicks(page)).filter(({ quantity }) => quantity === '777')).toHaveLength(1)
  })

  it('starts a new farm and prints with its server stopped: every part is there', async () => {
    await button('Farm').click()
    await button('Print this sheet').click()
    await page.locator('.print-preview canvas').waitFor()
    await close()
    await button('Farm').click()
    await button('Other farms').click()
    await button(/^Start my own farm/).click()
    await page.getByLabel('Name of the farm').fill('Far from any mast')
    await page.getByLabel('Where it lies').fill('46.3, 15.6')
    await page.getByRole('button', { name: 'Start this farm' }).click()
    await page.locator('.table-pane[aria-busy="false"]').waitFor({ state: 'attached' })
    await page.reload()
    await farmShown(page)
    expect(await page.title()).toContain('Far from any mast')
  })

  it('tells of a newer build, shows it only when told to, and keeps nothing of the older', async () => {
    const before = await build()
    const dir = await newerBuild('0ddba11')
    const newer = await startServer({ dir, port: Number(new URL(site.url).port) })
    try {
      await page.reload()
      await farmShown(page)
      const told = page.getByRole('status', { name: 'A newer Selion' })
      await told.getByText('A newer Selion is here: reload when it suits.').waitFor()
      expect(await axeFinds(page)).toEqual([])
      expect(await build()).toBe(before)
      const other = await openPage(browser)
      await told.getByRole('button', { name: 'Reload' }).click()
      await told.getByText('open in one other tab or window').waitFor()
      await other.close()
      await told.getByRole('button', { name: 'Reload' }).click()
      await page.locator('meta[name="selion-build"][content="0ddba11"]').waitFor({ state: 'attached' })
      await farmShown(page)
      await expect
        .poll(() => page.evaluate(async () => (await caches.keys()).filter((name) => name !== 'selion-parts')), {
          timeout: 30_000,
        })
        .toEqual(['selion-page-0ddba11'])
    } finally {
      await newer.close()
      await rm(dir, { recursive: true, force: true })
    }
  })
})

describe('with no room left on the device', () => {
  let session: CDPSession
  const quota = (quotaSize?: number) =>
    session.send('Storage.overrideQuotaForOrigin', {
      origin: new URL(site.url).origin,
      ...(quotaSize !== undefined && { quotaSize }),
    })

  it('keeps nothing of an entry, says what to do, loses nothing typed, and keeps it once when there is room', async () => {
    await button('Farm').click()
    await button('Other farms').click()
    await page
      .getByRole('button', { name: /^Demo|invented/ })
      .first()
      .click()
    await farmShown(page)
    await page.getByLabel('Sheet', { exact: true }).selectOption('picking')
    session = await browser.context.newCDPSession(page)
    await quota(1_000_000)
    let refused = 0
    // What is written over old room still fits; sooner or later a file must grow.
    for (let n = 2000; refused === 0 && n < 2400; n++) {
      await pick(String(n))
      const fault = entry().locator('.fault')
      await expect
        .poll(
          async () =>
            (await words(entry().locator('.pick-kept'))).replace(/,/g, '').includes(String(n)) ||
            (await fault.count()) > 0,
          { timeout: 30_000 },
        )
        .toBe(true)
      if ((await fault.count()) === 0) continue
      refused = n
      expect(await words(fault)).toMatch(/no room left.*not kept.*what you entered still stands.*archive/)
      expect(await page.getByLabel('How much').inputValue()).toBe(String(n))
      expect(await axeFinds(page)).toEqual([])
      await quota()
      await tap(entry().getByRole('button', { name: 'Keep this pick' }))
      await fault.waitFor({ state: 'detached' })
    }
    expect(refused).toBeGreaterThan(0)
    const there = (await savedPicks(page)).map(({ quantity }) => Number(quantity)).filter((told) => told >= 2000)
    expect(there).toEqual(Array.from({ length: refused - 1999 }, (_, i) => 2000 + i))
  })
})

it('loses none of the picks that were confirmed, and doubles none, when the browser is killed time and again', {
  timeout: 300_000,
}, async () => {
  const at = new URL(page.url()).hash
  await browser.close()
  // The bench does it with 50 ends and 200 picks.
  const { confirmed, there, kills } = await pickAndKill({ url: site.url, profile, at }, 2, 8, seededRandom(11))
  expect(confirmed.length).toBeGreaterThanOrEqual(8)
  expect(confirmed.filter((n) => there.get(n) !== 1)).toEqual([])
  expect([...there].filter(([, times]) => times > 1)).toEqual([])
  expect(there.size - confirmed.length).toBeLessThanOrEqual(kills)
})
