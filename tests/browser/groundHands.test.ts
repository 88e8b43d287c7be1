import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { newProfile, removeProfile, type Site, servePage, startBrowser, type TestBrowser } from './harness.ts'
import { DESK_SIZE, openDemo, openPage, PHONE_SIZE, tap, touchMap, words } from './pageActs.ts'

/** What is done with things that stand, without a mouse: all by finger on a phone, then all by keys at a desk. */

let site: Site
let profile: string
let browser: TestBrowser
let page: Page

beforeAll(async () => {
  site = await servePage()
  profile = await newProfile()
  browser = await startBrowser(site.url, profile)
  page = await openPage(browser)
  await openDemo(page)
  page.setDefaultTimeout(8000)
})
afterAll(async () => {
  try {
    await browser?.close()
  } finally {
    await removeProfile(profile)
    await site?.close()
  }
})

const bedCount = async () =>
  Number(/in (\d+) beds/.exec((await page.locator('.figure-grounds').first().textContent()) ?? '')?.[1] ?? Number.NaN)
const inTable = (name: string) => page.locator('section[aria-label="Beds"]').getByRole('button', { name, exact: true })
const lineOf = async (name: string) =>
  (await page
    .locator('section[aria-label="Beds"] tr', {
      has: page.getByRole('button', { name, exact: true, includeHidden: true }),
    })
    .textContent()) ?? ''
const card = (name: string) => page.getByRole('article', { name })
const form = (name: string | RegExp) => page.getByRole('form', { name })
const middle = async () => {
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  return [box.width / 2, box.height / 2] as const
}

describe('by finger, on a phone', () => {
  beforeAll(() => page.setViewportSize(PHONE_SIZE))

  const shown = (name: string) => page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name })
  const open = async (name: string) => {
    await tap(shown('Table'))
    await tap(inTable(name))
    await card(name).waitFor()
  }
  const more = async (deed: string) => {
    await tap(page.getByRole('article').getByRole('button', { name: 'More', exact: true }))
    await tap(page.getByRole('article').getByRole('button', { name: deed, exact: true }))
  }
  const undo = async (before: number) => {
    await tap(page.getByRole('button', { name: /^Undo/ }))
    await expect.poll(bedCount).toBe(before)
  }

  it('measures along what is tapped, and keeps nothing', async () => {
    await tap(page.getByRole('button', { name: 'Measure' }))
    await page.getByRole('button', { name: 'Leave' }).waitFor()
    await touchMap(page, 80, 60)
    await touchMap(page, 200, 140)
    await touchMap(page, 260, 60)
    await expect.poll(() => words(page.locator('.pen-figures'))).toMatch(/in all/)
    await tap(page.getByRole('button', { name: 'Leave' }))
    await page.locator('.pen').waitFor({ state: 'detached' })
  })

  it('copies a bed, widens it, and takes both back', async () => {
    const before = await bedCount()
    await open('O3')
    await more('Copy alongside')
    await tap(form('Copy 1 bed alongside').getByRole('button', { name: 'Make the copy' }))
    await expect.poll(bedCount).toBe(before + 1)
    await undo(before)
    await open('O3')
    await more('Widen or narrow')
    await tap(form('Widen or narrow a bed').getByText('inward'))
    await form('Widen or narrow a bed')
      .getByLabel(/^By, on every side/)
      .fill('0.05')
    await tap(form('Widen or narrow a bed').getByRole('button', { name: 'Change it' }))
    await expect.poll(() => lineOf('O3')).toMatch(/1\.00/)
    await undo(before)
    await expect.poll(() => lineOf('O3')).toMatch(/1\.10/)
  })

  it('splits a bed along a tapped line, and merges its parts again', async () => {
    const before = await bedCount()
    await open('O3')
    await tap(card('O3').getByRole('button', { name: 'Find on the map' }))
    await tap(shown('Card'))
    await more('Split')
    await page.getByRole('button', { name: 'Done' }).waitFor()
    const [x, y] = await middle()
    await touchMap(page, x + 14, y - 40)
    await touchMap(page, x + 22, y + 40)
    await tap(page.getByRole('button', { name: 'Done' }))
    await form('Split O3 in 2').getByLabel('Name of the other part').fill('O3 east')
    await tap(form('Split O3 in 2').getByRole('button', { name: 'Split it' }))
    await expect.poll(bedCount).toBe(before + 1)
    await card('O3').waitFor()
    await more('Select with others')
    await tap(shown('Table'))
    await tap(inTable('O3 east'))
    await expect.poll(() => page.locator('.several h2').textContent()).toBe('2 beds')
    await tap(shown('Card'))
    await tap(page.getByRole('button', { name: 'Merge', exact: true }))
    await tap(form('Merge 2 beds').getByRole('button', { name: 'Merge them' }))
    await expect.poll(bedCount).toBe(before)
    await undo(before + 1)
    await undo(before)
  })

  it('brings a bed alongside a tapped edge', async () => {
    await open('O3')
    await more('Align')
    const [x, y] = await middle()
    for (let up = 14; up < 60; up += 6) {
      await touchMap(page, x, y - up)
      if (
        await form('Align 1 bed')
          .getByText(/^Turned by/)
          .isVisible()
      )
        break
    }
    await form('Align 1 bed')
      .getByText(/^Turned by/)
      .waitFor()
    await tap(form('Align 1 bed').getByRole('button', { name: 'Give up' }))
    await form('Align 1 bed').waitFor({ state: 'detached' })
  })
})

describe('by keys alone, at a desk', () => {
  beforeAll(() => page.setViewportSize(DESK_SIZE))

  const press = async (what: Locator, key = 'Enter') => {
    // What is not ready yet can have the focus, and does nothing.
    await expect.poll(() => what.isEnabled()).toBe(true)
    await what.focus()
    await page.keyboard.press(key)
  }
  const open = async (name: string) => {
    await press(inTable(name))
    await card(name).waitFor()
  }
  const more = async (deed: string) => {
    await press(page.getByRole('article').getByRole('button', { name: 'More', exact: true }))
    await press(page.getByRole('article').getByRole('button', { name: deed, exact: true }))
  }
  const undo = async (before: number) => {
    await page.keyboard.press('Control+z')
    await expect.poll(bedCount).toBe(before)
  }
  /** Keys pressed on the map, each so many times. */
  const onMap = async (...keys: readonly (readonly [key: string, times: number])[]) => {
    await page.locator('.maplibregl-canvas').focus()
    for (const [key, times] of keys) for (let n = 0; n < times; n++) await page.keyboard.press(key)
  }

  it('measures, and keeps nothing', async () => {
    await press(page.getByRole('button', { name: 'Measure' }))
    await page.getByRole('button', { name: 'Leave' }).waitFor()
    await onMap(['Enter', 1], ['ArrowRight', 8], ['Enter', 1], ['ArrowDown', 8])
    await expect.poll(() => words(page.locator('.pen-figures'))).toMatch(/in all/)
    await press(page.getByRole('button', { name: 'Leave' }))
    await page.locator('.pen').waitFor({ state: 'detached' })
  })

  it('copies a bed, widens it, and takes both back', async () => {
    const before = await bedCount()
    await open('O3')
    await more('Copy alongside')
    await press(form('Copy 1 bed alongside').getByRole('button', { name: 'Make the copy' }))
    await expect.poll(bedCount).toBe(before + 1)
    await undo(before)
    await open('O3')
    await more('Widen or narrow')
    await press(form('Widen or narrow a bed').getByLabel('inward'), 'Space')
    await form('Widen or narrow a bed')
      .getByLabel(/^By, on every side/)
      .focus()
    await page.keyboard.type('0.05')
    await press(form('Widen or narrow a bed').getByRole('button', { name: 'Change it' }))
    await expect.poll(() => lineOf('O3')).toMatch(/1\.00/)
    await undo(before)
  })

  it('splits a bed along a line, and merges its parts again', async () => {
    const before = await bedCount()
    await open('O3')
    await press(card('O3').getByRole('button', { name: 'Find on the map' }))
    await more('Split')
    await page.getByRole('button', { name: 'Done' }).waitFor()
    await onMap(['ArrowRight', 3], ['ArrowUp', 6], ['Enter', 1], ['ArrowDown', 12], ['Enter', 1])
    await press(page.getByRole('button', { name: 'Done' }))
    await form('Split O3 in 2').getByLabel('Name of the other part').focus()
    await page.keyboard.press('Control+a')
    await page.keyboard.type('O3 east')
    await press(form('Split O3 in 2').getByRole('button', { name: 'Split it' }))
    await expect.poll(bedCount).toBe(before + 1)
    await card('O3').waitFor()
    await more('Select with others')
    await press(inTable('O3 east'))
    await expect.poll(() => page.locator('.several h2').textContent()).toBe('2 beds')
    await press(page.getByRole('button', { name: 'Merge', exact: true }))
    await press(form('Merge 2 beds').getByRole('button', { name: 'Merge them' }))
    await expect.poll(bedCount).toBe(before)
    await undo(before + 1)
    await undo(before)
  })

  it('brings a bed alongside an edge', async () => {
    await open('O3')
    await more('Align')
    for (let n = 0; n < 12; n++) {
      await onMap(['ArrowUp', 1], ['Enter', 1])
      if (
        await form('Align 1 bed')
          .getByText(/^Turned by/)
          .isVisible()
      )
        break
    }
    await form('Align 1 bed')
      .getByText(/^Turned by/)
      .waitFor()
    await page.keyboard.press('Escape')
    await card('O3').waitFor()
  })
})
