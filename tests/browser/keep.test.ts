import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { addField, answer, ask, fieldIds, makeFarm } from './deskPage.ts'
import { removeProfile, type Site, serveDesk, startBrowser, type TestBrowser } from './harness.ts'
import { type KeptFarm, keepFarm, openKept } from './keptFarm.ts'

let site: Site
/** A farm with a field, by storage. */
const kept = new Map<string, Promise<KeptFarm>>()
let profile: string
let browser: TestBrowser

beforeAll(async () => {
  site = await serveDesk()
})
afterAll(async () => {
  await site?.close()
  for (const farm of kept.values()) await (await farm).remove()
})
afterEach(async () => {
  try {
    await browser.close()
  } finally {
    await removeProfile(profile)
  }
})

/** A page on which the farm is open, in a browser of its own. */
async function start(storage = ''): Promise<{ readonly page: Page; readonly id: string }> {
  const farm = kept.get(storage) ?? keepFarm(site, storage)
  kept.set(storage, farm)
  const { id } = await farm
  ;({ browser, profile } = await (await farm).start())
  const { page, notices } = await openKept(browser, storage)
  expect(notices).toEqual([])
  return { page, id }
}

/** The browser again, on the same profile, after it was killed. */
async function killAndReopen(): Promise<void> {
  await browser.kill()
  browser = await startBrowser(site.url, profile)
}

describe.each(['', 'idb', 'idb-engine'])('the browser is killed, storage %s', (storage) => {
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

describe('two tabs', () => {
  it('do not write to one farm: the second is told, and may take over', async () => {
    const { page: first, id } = await start()
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

  it('the second takes over from one that does not answer', async () => {
    const { page: first, id } = await start()
    const hung = first.workers()[0]!.evaluate(() => {
      const until = Date.now() + 7000
      while (Date.now() < until);
    })
    const second = await browser.open('')
    await answer(second, 'openFarm', { id, takeOver: true })
    await addField(second, 'by the second')
    await hung.catch(() => undefined)
    await first.waitForFunction(() => heard.at(-1)?.event === 'lost')
    expect(await ask(first, 'undo', { on: '2025-07-01' })).toMatchObject({ ok: false })
    expect(await fieldIds(second)).toEqual(['field', 'by the second'])
  })

  it('may work on two farms at once', async () => {
    const { page: first } = await start()
    const second = await browser.open('')
    await makeFarm(second, 'South', CAPE)
    await addField(first, 'northern')
    expect(await fieldIds(first)).toEqual(['field', 'northern'])
    expect(await fieldIds(second)).toEqual(['field'])
  })
})

describe('several farms on one device', () => {
  it('each keep their own, and one can be forgotten', async () => {
    const { page, id: north } = await start()
    const south = await makeFarm(page, 'South', CAPE)
    await addField(page, 'southern', CAPE)
    const area = async () => {
      const { fields } = await answer(page, 'measure', { on: '2025-07-01' })
      return fields.map((field) => field.area_m2)
    }
    const southern = await area()
    await answer(page, 'openFarm', { id: north, takeOver: false })
    expect(await fieldIds(page)).toEqual(['field'])
    const [northern] = await area()
    await answer(page, 'openFarm', { id: south.entry.id, takeOver: false })
    expect(await area()).toEqual(southern)
    // A degree of longitude is shorter at 52° N than at 34° S, by the ratio of the cosines (within the flattening).
    const ratio = Math.cos((52.1 * Math.PI) / 180) / Math.cos((33.9 * Math.PI) / 180)
    expect(northern! / southern[0]!).toBeCloseTo(ratio, 2)
    expect((await answer(page, 'listFarms', {})).map((farm) => farm.name)).toEqual(['South', 'Kept farm'])
    await answer(page, 'forgetFarm', { id: south.entry.id })
    expect((await answer(page, 'listFarms', {})).map((farm) => farm.name)).toEqual(['Kept farm'])
    expect(await ask(page, 'openFarm', { id: south.entry.id, takeOver: false })).toMatchObject({
      fault: { kind: 'not found' },
    })
  })
})

describe('the worker', () => {
  it('hangs while a farm is opened, and the farm is made anew in another', async () => {
    const { page, id } = await start()
    await page.clock.install()
    await page.reload()
    await answer(page, 'listFarms', {})
    void page
      .workers()[0]!
      .evaluate(() => {
        for (;;);
      })
      .catch(() => undefined)
    const opening = answer(page, 'openFarm', { id, takeOver: false })
    await page.waitForTimeout(500)
    await page.clock.fastForward(61_000)
    const { notices } = await opening
    expect(notices[0]).toMatch(/did not answer.*made anew.*Nothing that was confirmed is lost/)
    expect(await fieldIds(page)).toEqual(['field'])
  })

  it('dies, and the next request finds another', async () => {
    const { page, id } = await start()
    await page
      .workers()[0]!
      .evaluate(() => self.close())
      .catch(() => undefined)
    await page.waitForFunction(() => heard.at(-1)?.event === 'lost')
    await answer(page, 'openFarm', { id, takeOver: false })
    expect(await fieldIds(page)).toEqual(['field'])
  })

  it('opens again after a reload of the page, at once', async () => {
    const { page, id } = await start()
    for (let trial = 0; trial < 2; trial++) {
      await page.reload()
      await answer(page, 'openFarm', { id, takeOver: false })
      expect(await fieldIds(page)).toEqual(['field'])
    }
  })
})
