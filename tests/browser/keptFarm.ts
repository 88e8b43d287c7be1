import { cp } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { answer, makeFarm } from './deskPage.ts'
import { newProfile, removeProfile, type Site, startBrowser, type TestBrowser } from './harness.ts'

/** A farm in the profile of a browser that was killed: made once, for tests that each work on a copy. */
export interface KeptFarm {
  readonly id: string
  start(): Promise<{ readonly browser: TestBrowser; readonly profile: string }>
  remove(): Promise<void>
}

/** Makes a farm on the bare desk's page, with a field and what `more` does to it. */
export async function keepFarm(
  site: Site,
  storage: string,
  more: (page: Page) => Promise<void> = async () => undefined,
): Promise<KeptFarm> {
  const made = await newProfile()
  const browser = await startBrowser(site.url, made)
  const page = await browser.open(`?storage=${storage}`)
  const { entry } = await makeFarm(page)
  await more(page)
  await browser.kill()
  return {
    id: entry.id,
    async start() {
      const profile = await newProfile()
      await cp(made, profile, { recursive: true, filter: (path) => !/\/Singleton\w+$/.test(path) })
      return { browser: await startBrowser(site.url, profile), profile }
    },
    remove: () => removeProfile(made),
  }
}

/** Opens the first farm that is kept in a browser. */
export async function openKept(
  browser: TestBrowser,
  storage = '',
): Promise<{ readonly page: Page; readonly notices: readonly string[] }> {
  const page = await browser.open(`?storage=${storage}`)
  const [farm] = await answer(page, 'listFarms', {})
  const { notices } = await answer(page, 'openFarm', { id: farm!.id, takeOver: false })
  return { page, notices }
}
