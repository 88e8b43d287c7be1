import type { Page } from 'playwright-core'
import {
  type BrowserOptions,
  newProfile,
  removeProfile,
  type Site,
  servePage,
  startBrowser,
  type TestBrowser,
} from './harness.ts'
import { DESK_SIZE, openPage } from './pageActs.ts'

/** The built page, open in a browser of its own with a new profile, for the tests of a file. */
export interface HeldPage {
  readonly site: Site
  readonly profile: string
  readonly browser: TestBrowser
  readonly page: Page
  /** Closes all of it and removes the profile. Throws where a page complained. */
  close(): Promise<void>
}

/** Opens the page at a size; `at` is what follows its address, `ready` is done with the browser before it opens. */
export async function holdPage({
  at = '',
  size = DESK_SIZE,
  ready = async () => undefined,
  ...options
}: BrowserOptions & {
  readonly at?: string
  readonly size?: typeof DESK_SIZE
  readonly ready?: (browser: TestBrowser, site: Site) => Promise<unknown>
} = {}): Promise<HeldPage> {
  const [site, profile] = [await servePage(), await newProfile()]
  let browser: TestBrowser | undefined
  const close = async () => {
    try {
      await browser?.close()
    } finally {
      await removeProfile(profile)
      await site.close()
    }
  }
  try {
    browser = await startBrowser(site.url, profile, options)
    await ready(browser, site)
    return { site, profile, browser, page: await openPage(browser, at, size), close }
  } catch (error) {
    await close()
    throw error
  }
}
