import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, clickMap, DESK_SIZE, mapHears, moveOverMap, openDemo, PHONE_SIZE, words } from './pageActs.ts'

/** A busy machine may take a while over a step. */
const SOON = { timeout: 15_000 }

// The demo farm is invented. Every act is one step, and undo brings back what there was.
describe('what is done with things that stand', () => {
  let held: HeldPage
  let page: Page
  beforeAll(async () => {
    held = await holdPage()
    page = held.page
    await openDemo(page)
  })
  afterAll(() => held?.close())

  const inTable = (name: string) =>
    page.locator('section[aria-label="Beds"]').getByRole('button', { name, exact: true })
  const lineOf = (name: string) =>
    words(page.locator('section[aria-label="Beds"] tr', { has: page.getByRole('button', { name, exact: true }) }))
  const beds = async () =>
    Number(/in (\d+) beds/.exec(await words(page.locator('.figure-grounds').first()))?.[1] ?? Number.NaN)
  const undone = () => page.locator('.steps .step-name').first()
  const openBed = async (name: string) => {
    await inTable(name).click()
    await page.getByRole('article', { name }).waitFor()
    await page.getByRole('button', { name: 'Find on the map' }).click()
    await page.waitForTimeout(600)
  }
  const more = async (deed: string) => {
    await page.getByRole('article').getByRole('button', { name: 'More', exact: true }).click()
    await page.getByRole('article').getByRole('button', { name: deed, exact: true }).click()
  }
  const undo = async (before: number) => {
    await page.keyboard.press('Control+z')
    await expect.poll(beds, SOON).toBe(before)
  }

  it('keeps what is chosen by keys in a form while the map’s own part of it still comes', async () => {
    const chunk = /\/startSession-[\w-]+\.js$/
    let come: () => void = () => undefined
    const waits = new Promise<void>((go) => {
      come = go
    })
    await page.route(chunk, async (route) => {
      await waits
      await route.continue()
    })
    await openBed('O3')
    await more('Widen or narrow')
    const form = page.getByRole('form', { name: 'Widen or narrow a bed' })
    const inward = form.getByLabel('inward')
    await inward.focus()
    come()
    await mapHears(page)
    await page.keyboard.press('Space')
    await expect.poll(() => inward.isChecked()).toBe(true)
    await page.unroute(chunk)
    await form.getByRole('button', { name: 'Give up' }).click()
    await form.waitFor({ state: 'detached' })
  })

  it('copies a bed with its rows, three times, south of it, as one step', async () => {
    const before = await beds()
    await openBed('O3')
    await more('Copy alongside')
    const form = page.getByRole('form', { name: 'Copy 1 bed alongside' })
    await form.getByLabel('Copies').fill('3')
    await form.getByLabel(/^Path between/).fill('0,4')
    await expect.poll(() => page.locator('svg.sketch .drawn').last().getAttribute('d'), SOON).toMatch(/M.*M.*M.*M/)
    expect(await axeFinds(page)).toEqual([])
    await form.getByRole('button', { name: 'Make 3 copies' }).click()
    await expect.poll(beds, SOON).toBe(before + 3)
    expect(await words(undone())).toBe('Copy bed 3 times')
    await undo(before)
  })

  it('splits a bed where it is cut, asks what stays what, and takes it back whole', async () => {
    const before = await beds()
    await openBed('O3')
    await more('Split')
    await page.getByRole('button', { name: 'Done' }).waitFor()
    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    const [x, y] = [box.width / 2, box.height / 2]
    await page.keyboard.down('Alt')
    // East of its middle, so that the western part is the larger and stays what it was.
    await clickMap(page, x + 34, y - 60)
    await clickMap(page, x + 46, y + 50)
    await page.keyboard.up('Alt')
    await page.getByRole('button', { name: 'Done' }).click()
    const form = page.getByRole('form', { name: 'Split O3 in 2' })
    await form.getByText(/rows are cut where the bed is/).waitFor()
    await form.getByLabel('Name of the other part').fill('O3 east')
    expect(await axeFinds(page)).toEqual([])
    await form.getByRole('button', { name: 'Split it' }).click()
    await expect.poll(beds, SOON).toBe(before + 1)
    await inTable('O3 east').waitFor()
    // Joined again, it is one bed of the same ground.
    await page.getByRole('article', { name: 'O3' }).waitFor()
    await more('Select with others')
    await inTable('O3 east').waitFor()
    const east = page.getByRole('button', { name: 'Several' })
    expect(await east.getAttribute('aria-pressed')).toBe('true')
    // On the row in the bed's middle, which among beds means the bed.
    await clickMap(page, x + 150, y - 26)
    await expect.poll(() => words(page.locator('.several h2')), SOON).toBe('2 beds')
    await page.getByRole('button', { name: 'Merge', exact: true }).click()
    await page.getByRole('form', { name: 'Merge 2 beds' }).getByRole('button', { name: 'Merge them' }).click()
    await expect.poll(beds, SOON).toBe(before)
    expect(await words(undone())).toBe('Merge 2 beds')
    await page.keyboard.press('Control+z')
    await expect.poll(beds, SOON).toBe(before + 1)
    await undo(before)
  })

  it('widens a bed by what is typed, aligns it to a tapped edge, and draws a parallel of nothing that vanishes', async () => {
    await openBed('O3')
    await more('Widen or narrow')
    const widen = page.getByRole('form', { name: 'Widen or narrow a bed' })
    await widen.getByText('inward').click()
    await widen.getByLabel(/^By, on every side/).fill('0.6')
    await widen.getByText('Nothing would be left of it.').waitFor()
    await widen.getByLabel(/^By, on every side/).fill('0.05')
    await widen.getByRole('button', { name: 'Change it' }).click()
    await expect.poll(() => lineOf('O3'), SOON).toMatch(/1\.00/)
    await page.keyboard.press('Control+z')
    await expect.poll(() => lineOf('O3'), SOON).toMatch(/1\.10/)
    await more('Align')
    const align = page.getByRole('form', { name: 'Align 1 bed' })
    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    await clickMap(page, box.width / 2 + 4, box.height / 2 - 46)
    await align.getByText(/^Turned by/).waitFor()
    await page.keyboard.press('Escape')
    await page.getByRole('article', { name: 'O3' }).waitFor()
  })

  it('moves a bed with what stands in it, and removes several at once', async () => {
    const before = await beds()
    await openBed('O3')
    await page.getByRole('article').getByRole('button', { name: 'Move', exact: true }).click()
    await page.getByText(/3 rows/).waitFor()
    await page.getByLabel(/^Move,/).fill('0.2')
    await page.getByLabel(/^Toward/).fill('80')
    await page.getByRole('button', { name: 'Done' }).click()
    await expect.poll(() => words(undone()), SOON).toBe('Move bed')
    await page.keyboard.press('Control+z')
    await page.getByRole('button', { name: 'Several' }).click()
    await inTable('O3').click()
    await inTable('O4').click()
    await expect.poll(() => words(page.locator('.several h2')), SOON).toBe('2 beds')
    await page.getByRole('button', { name: 'Remove', exact: true }).click()
    await page.getByText(/With them go|Nothing else/).waitFor()
    await page.getByRole('button', { name: 'Remove them' }).click()
    await expect.poll(beds, SOON).toBe(before - 2)
    await undo(before)
  })

  it('measures on the phone and keeps nothing', async () => {
    await page.setViewportSize(PHONE_SIZE)
    await page.getByRole('button', { name: 'Map', exact: true }).click()
    await page.getByRole('button', { name: 'Measure' }).click()
    await mapHears(page)
    await page.getByRole('button', { name: 'Leave' }).waitFor()
    await clickMap(page, 80, 60)
    await clickMap(page, 200, 140)
    await moveOverMap(page, 260, 60)
    expect(await words(page.locator('.pen-figures'))).toMatch(/in all/)
    expect(await axeFinds(page)).toEqual([])
    const deeds = await page
      .locator('.pen .deeds button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height))
    for (const height of deeds) expect(height).toBeGreaterThanOrEqual(44)
    await page.getByRole('button', { name: 'Leave' }).click()
    await page.setViewportSize(DESK_SIZE)
    expect(await words(undone())).not.toMatch(/[Mm]easure/)
  })
})
