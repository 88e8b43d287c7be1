import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { addField, answer, fieldIds } from './deskPage.ts'
import { removeProfile, type Site, serveDesk, startBrowser, type TestBrowser } from './harness.ts'
import { type KeptFarm, keepFarm, openKept } from './keptFarm.ts'
import { type IdbWreck, putBack, takeAside, wreckIdb } from './wreckIdb.ts'
import { type OpfsWreck, wreckOpfs } from './wreckOpfs.ts'

let site: Site
let profile: string
let browser: TestBrowser

/** Edits that were confirmed, by storage. */
const left: Record<string, KeptFarm> = {}

beforeAll(async () => {
  site = await serveDesk()
  for (const storage of ['', 'idb']) left[storage] = await keepFarm(site, storage, edited)
})
afterAll(async () => {
  await site?.close()
  for (const one of Object.values(left)) await one.remove()
})
afterEach(async () => {
  try {
    await browser.close()
  } finally {
    await removeProfile(profile)
  }
})

async function edited(page: Page): Promise<void> {
  for (const id of ['one', 'two']) await addField(page, id)
  await answer(page, 'undo', { on: '2025-07-01' })
  await addField(page, 'three')
}

/** A browser on a copy of what is left; gives the farm's id. */
async function startOnLeft(storage: string): Promise<string> {
  ;({ browser, profile } = await left[storage]!.start())
  return left[storage]!.id
}

const THERE = ['field', 'one', 'three']

describe.each<[OpfsWreck, RegExp]>([
  ['WAL cut short', /broke off/],
  ['end of the WAL lost', /it lacks .* confirmed/],
  ['a table gone', /base\/\d+\/\d+ is gone/],
  ['list of files cut short', /list of files is damaged/],
])('a database in private files: %s', (how, why) => {
  it('is made anew with nothing lost, the wreck kept aside and the person told', async () => {
    const id = await startOnLeft('')
    await wreckOpfs(await browser.open('nothing-here'), `${id}-1`, how)
    browser.takeComplaints()
    const { page, notices } = await openKept(browser)
    expect(await fieldIds(page)).toEqual(THERE)
    expect(notices).toHaveLength(1)
    expect(notices[0]).toMatch(why)
    expect(notices[0]).toMatch(/made anew.*Nothing that was confirmed is lost.*kept aside/s)
    const engines = await page.evaluate(async () => {
      let folder = await navigator.storage.getDirectory()
      for (const part of ['selion', 'engines']) folder = await folder.getDirectoryHandle(part)
      const names: string[] = []
      for await (const name of folder.keys()) names.push(name)
      return names.sort()
    })
    expect(engines).toEqual([`${id}-1`, `${id}-2`])
    expect(await answer(page, 'undo', { on: '2025-07-01' })).toMatchObject({ label: 'Draw three' })
    expect(await fieldIds(page)).toEqual(['field', 'one'])
    if (how !== 'a table gone') return
    // And it is as lasting as the first was.
    await addField(page, 'four')
    await browser.kill()
    browser = await startBrowser(site.url, profile)
    const again = await openKept(browser)
    expect(again.notices).toEqual([])
    expect(await fieldIds(again.page)).toEqual(['field', 'one', 'four'])
  })
})

describe.each<IdbWreck>(['WAL gone', 'a table gone', 'PG_VERSION gone', 'all gone'])(
  'a database in IndexedDB: %s',
  (how) => {
    it('is made anew with nothing lost, the wreck kept aside and the person told', async () => {
      const id = await startOnLeft('idb')
      await wreckIdb(await browser.open('nothing-here'), `${id}-1`, how)
      browser.takeComplaints()
      const { page, notices } = await openKept(browser, 'idb')
      expect(await fieldIds(page)).toEqual(THERE)
      expect(notices).toHaveLength(1)
      expect(notices[0]).toMatch(/made anew.*Nothing that was confirmed is lost.*kept aside/s)
      const names = await page.evaluate(async () => (await indexedDB.databases()).map((db) => db.name))
      expect(names).toEqual(expect.arrayContaining([`/pglite/${id}-1`, `/pglite/${id}-2`]))
      expect(await answer(page, 'undo', { on: '2025-07-01' })).toMatchObject({ label: 'Draw three' })
    })
  },
)

describe('a database in IndexedDB whose last writes never reached the disk', () => {
  it('gets them again from the step log, and the person is told', async () => {
    const id = await startOnLeft('idb')
    const { page: open } = await openKept(browser, 'idb')
    const aside = await browser.open('nothing-here')
    await takeAside(aside, `${id}-1`)
    await addField(open, 'late')
    await open.close()
    await putBack(aside, `${id}-1`)
    await browser.kill()
    browser = await startBrowser(site.url, profile)
    browser.takeComplaints()
    const { page, notices } = await openKept(browser, 'idb')
    expect(await fieldIds(page)).toEqual([...THERE, 'late'])
    expect(notices[0]).toMatch(/lacks one step|lacks 1 step/)
    expect(await page.evaluate(async () => (await indexedDB.databases()).map((db) => db.name))).not.toContain(
      `/pglite/${id}-2`,
    )
  })
})
