import { cp } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { addField, answer, fieldIds, makeFarm } from './deskPage.ts'
import { newProfile, removeProfile, type Site, serveDesk, startBrowser, type TestBrowser } from './harness.ts'
import { type IdbWreck, putBack, takeAside, wreckIdb } from './wreckIdb.ts'
import { type OpfsWreck, wreckOpfs } from './wreckOpfs.ts'

let site: Site
let profile: string
let browser: TestBrowser

/** What is left of edits that were confirmed, then an end without closing: a browser's profile, and the farm's id. */
interface Left {
  readonly profile: string
  readonly id: string
}
/** By storage, made once; each test works on a copy. */
const left: Record<string, Left> = {}

beforeAll(async () => {
  site = await serveDesk()
  for (const storage of ['', 'idb']) {
    profile = await newProfile()
    browser = await startBrowser(site.url, profile)
    left[storage] = { profile, id: await edited(storage) }
    await browser.kill()
  }
})
afterAll(async () => {
  await site?.close()
  for (const one of Object.values(left)) await removeProfile(one.profile)
})
afterEach(async () => {
  try {
    await browser.close()
  } finally {
    await removeProfile(profile)
  }
})

async function edited(storage: string, more?: (page: Page, id: string) => Promise<void>): Promise<string> {
  const page = await browser.open(`?storage=${storage}`)
  const { entry } = await makeFarm(page)
  for (const id of ['one', 'two']) await addField(page, id)
  await answer(page, 'undo', { on: '2025-07-01' })
  await addField(page, 'three')
  await more?.(page, entry.id)
  return entry.id
}

/** A browser on a copy of what is left; gives the farm's id. */
async function startOnLeft(storage: string): Promise<string> {
  const from = left[storage]!
  profile = await newProfile()
  await cp(from.profile, profile, { recursive: true, filter: (path) => !/\/Singleton\w+$/.test(path) })
  browser = await startBrowser(site.url, profile)
  return from.id
}

async function openKept(storage: string): Promise<{ page: Page; notices: readonly string[] }> {
  const page = await browser.open(`?storage=${storage}`)
  const [farm] = await answer(page, 'listFarms', {})
  const { notices } = await answer(page, 'openFarm', { id: farm!.id, takeOver: false })
  return { page, notices }
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
    const { page, notices } = await openKept('')
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
    await addField(page, 'four')
    await browser.kill()
    browser = await startBrowser(site.url, profile)
    const again = await openKept('')
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
      const { page, notices } = await openKept('idb')
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
    let aside: Page | undefined
    profile = await newProfile()
    browser = await startBrowser(site.url, profile)
    const id = await edited('idb', async (page, farm) => {
      aside = await browser.open('nothing-here')
      await takeAside(aside, `${farm}-1`)
      await addField(page, 'late')
      await page.close()
      await putBack(aside, `${farm}-1`)
    })
    await browser.kill()
    browser = await startBrowser(site.url, profile)
    browser.takeComplaints()
    const { page, notices } = await openKept('idb')
    expect(await fieldIds(page)).toEqual([...THERE, 'late'])
    expect(notices[0]).toMatch(/lacks one step|lacks 1 step/)
    expect(await page.evaluate(async () => (await indexedDB.databases()).map((db) => db.name))).not.toContain(
      `/pglite/${id}-2`,
    )
  })
})
