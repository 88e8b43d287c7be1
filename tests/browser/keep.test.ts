import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { addField, answer, ask, fieldIds, makeFarm } from './deskPage.ts'
import { newProfile, removeProfile, type Site, serveDesk, startBrowser, type TestBrowser } from './harness.ts'
import { openKept } from './keptFarm.ts'

let site: Site
let profile: string
let browser: TestBrowser

beforeAll(async () => {
  site = await serveDesk()
})
afterAll(() => site?.close())

/** A browser with a page on which a new farm with one field is open. */
async function start(storage = ''): Promise<{ readonly page: Page; readonly id: string }> {
  profile = await newProfile()
  browser = await startBrowser(site.url, profile)
  const page = await browser.open(`?storage=${storage}`)
  const { entry } = await makeFarm(page)
  return { page, id: entry.id }
}

async function end(): Promise<void> {
  try {
    await browser.close()
  } finally {
    await removeProfile(profile)
  }
}

/**
 * Lets the page's worker hang from now on. In a task of its own: a browser does not end a worker in the midst of what its
 * debugger runs there.
 */
function hang(page: Page, forMs: number): Promise<void> {
  return page.workers()[0]!.evaluate((forMs) => {
    setTimeout(() => {
      const until = Date.now() + forMs
      while (Date.now() < until);
    })
  }, forMs)
}

/** The browser again, on the same profile, after it was killed. */
async function killAndReopen(): Promise<void> {
  await browser.kill()
  browser = await startBrowser(site.url, profile)
}

describe.each(['', 'idb', 'idb-engine'])('the browser is killed, storage %s', (storage) => {
  afterEach(end)

  it('while edits come one behind another, and again right behind an edit: all that were confirmed are there', async () => {
    let { page } = await start(storage)
    const [entry] = await answer(page, 'listFarms', {})
    expect(entry!.storage).toBe(storage === '' ? 'opfs' : 'idb')
    const confirmed: string[] = []
    await page.exposeFunction('confirmed', (id: string) => void confirmed.push(id))
    const ended = page
      .evaluate(async () => {
        const { confirmed } = globalThis as unknown as { confirmed: (id: string) => Promise<void> }
        for (let n = 0; ; n++) {
          const record = { id: `c${n}`, name: 'Crop', family: 'Fabaceae', extra: {} }
          const edits = [{ do: 'add' as const, kind: 'crops', record }]
          const { ok } = await desk.ask('edit', { label: 'Add', edits, on: '2025-07-01' })
          if (ok) void confirmed(`c${n}`)
        }
      })
      .catch(() => undefined)
    while (confirmed.length < 25) await new Promise((go) => setTimeout(go, 10))
    await killAndReopen()
    await ended
    page = (await openKept(browser, storage)).page
    const there = (await answer(page, 'listRecords', { kind: 'crops' })).map((crop) => crop.id)
    expect(there.slice(0, confirmed.length)).toEqual(confirmed)
    expect(there.length - confirmed.length).toBeLessThanOrEqual(2)

    await addField(page, 'last')
    await killAndReopen()
    const opened = await openKept(browser, storage)
    expect(opened.notices).toEqual([])
    expect(await fieldIds(opened.page)).toEqual(['field', 'last'])
    expect(await answer(opened.page, 'listRecords', { kind: 'crops' })).toHaveLength(there.length)
    const undone = await answer(opened.page, 'undo', { on: '2025-07-01' })
    expect(undone).toMatchObject({ label: 'Draw last', layers: { fields: { gone: ['last'] } } })
    expect(await fieldIds(opened.page)).toEqual(['field'])
  })
})

const CAPE = [18.4, -33.9] as const

describe('one farm and another', () => {
  let first: Page
  let id: string
  beforeAll(async () => {
    ;({ page: first, id } = await start())
  })
  afterAll(end)

  it('is not written to by two tabs: the second is told, and may take over', async () => {
    const second = await browser.open('')
    const refused = await ask(second, 'openFarm', { id, takeOver: false })
    expect(refused).toMatchObject({ ok: false, fault: { kind: 'locked' } })
    await addField(first, 'by the first')
    await answer(second, 'openFarm', { id, takeOver: true })
    expect(await fieldIds(second)).toEqual(['field', 'by the first'])
    expect(await first.evaluate(() => heard.at(-1))).toMatchObject({ event: 'lost' })
    expect(await ask(first, 'undo', { on: '2025-07-01' })).toMatchObject({ ok: false, fault: { kind: 'not found' } })
    expect(await ask(first, 'openFarm', { id, takeOver: false })).toMatchObject({ fault: { kind: 'locked' } })
    await addField(second, 'by the second')
    await second.close()
    await answer(first, 'openFarm', { id, takeOver: false })
    expect(await fieldIds(first)).toEqual(['field', 'by the first', 'by the second'])
  })

  it('each keep their own on one device, and one can be forgotten', async () => {
    const here = await fieldIds(first)
    const second = await browser.open('')
    const south = await makeFarm(second, 'South', CAPE)
    // Two tabs may work on two farms at once.
    await addField(first, 'northern')
    await addField(second, 'southern', CAPE)
    expect(await fieldIds(first)).toEqual([...here, 'northern'])
    expect(await fieldIds(second)).toEqual(['field', 'southern'])
    await answer(first, 'undo', { on: '2025-07-01' })
    await second.close()

    const areas = async () => {
      const { fields } = await answer(first, 'measure', { on: '2025-07-01' })
      return fields.map((field) => field.area_m2)
    }
    const [northern] = await areas()
    await answer(first, 'openFarm', { id: south.entry.id, takeOver: false })
    expect(await fieldIds(first)).toEqual(['field', 'southern'])
    // A degree of longitude is shorter at 52° N than at 34° S, by the ratio of the cosines (within the flattening).
    const ratio = Math.cos((52.1 * Math.PI) / 180) / Math.cos((33.9 * Math.PI) / 180)
    expect(northern! / (await areas())[0]!).toBeCloseTo(ratio, 2)
    await answer(first, 'openFarm', { id, takeOver: false })
    expect(await fieldIds(first)).toEqual(here)
    expect((await answer(first, 'listFarms', {})).map((farm) => farm.name).sort()).toEqual(['Kept farm', 'South'])
    await answer(first, 'forgetFarm', { id: south.entry.id })
    expect((await answer(first, 'listFarms', {})).map((farm) => farm.name)).toEqual(['Kept farm'])
    expect(await ask(first, 'openFarm', { id: south.entry.id, takeOver: false })).toMatchObject({
      fault: { kind: 'not found' },
    })
    await answer(first, 'openFarm', { id, takeOver: false })
  })

  it('opens again after a reload of the page, at once', async () => {
    const here = await fieldIds(first)
    await first.reload()
    await answer(first, 'openFarm', { id, takeOver: false })
    expect(await fieldIds(first)).toEqual(here)
  })

  it('is opened by another worker where its own dies', async () => {
    const here = await fieldIds(first)
    await first
      .workers()[0]!
      .evaluate(() => self.close())
      .catch(() => undefined)
    await first.waitForFunction(() => heard.at(-1)?.event === 'lost')
    await answer(first, 'openFarm', { id, takeOver: false })
    expect(await fieldIds(first)).toEqual(here)
  })

  it('is taken over by a second tab from one that does not answer', async () => {
    const here = await fieldIds(first)
    await hang(first, 7000)
    const second = await browser.open('')
    await answer(second, 'openFarm', { id, takeOver: true })
    await addField(second, 'taken over')
    await first.waitForFunction(() => heard.at(-1)?.event === 'lost')
    expect(await ask(first, 'undo', { on: '2025-07-01' })).toMatchObject({ ok: false })
    expect(await fieldIds(second)).toEqual([...here, 'taken over'])
    await second.close()
    await answer(first, 'openFarm', { id, takeOver: false })
  })

  it('is made anew in another worker where one hangs while it is opened', async () => {
    const here = await fieldIds(first)
    await first.clock.install()
    await first.reload()
    await answer(first, 'listFarms', {})
    await hang(first, Infinity)
    const opening = answer(first, 'openFarm', { id, takeOver: false })
    await first.waitForTimeout(500)
    await first.clock.fastForward(61_000)
    const { notices } = await opening
    expect(notices[0]).toMatch(/did not answer.*made anew.*Nothing that was confirmed is lost/)
    expect(await fieldIds(first)).toEqual(here)
  })
})
