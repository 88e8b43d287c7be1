import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { newProfile, removeProfile, type Site, servePage, startBrowser, type TestBrowser } from './harness.ts'
import { axeFinds, DESK_SIZE, figure, goToSheet, openDemo, openPage, PHONE_SIZE, words } from './pageActs.ts'

let site: Site
let profile: string
let browser: TestBrowser
let page: Page

beforeAll(async () => {
  site = await servePage()
  profile = await newProfile()
  browser = await startBrowser(site.url, profile)
  page = await openPage(browser)
  page.setDefaultTimeout(90_000)
  await openDemo(page)
  await goToSheet(page, 'siting')
})
afterAll(async () => {
  try {
    await browser?.close()
  } finally {
    await removeProfile(profile)
    await site?.close()
  }
})

const section = (name: string) => page.getByRole('region', { name })
const show = (what: string) => page.locator('.siting-strip .choice').getByText(what, { exact: true }).click()

it('chooses rows for the need, puts one up as a step, and keeps the plan', async () => {
  const need = page.getByRole('form', { name: 'The need' })
  await need.waitFor()
  await need.getByLabel('Years looked ahead').fill('many')
  await need.getByRole('button', { name: 'Choose the rows' }).click()
  await need.getByText('“many” is not a number.').waitFor()
  await need.getByLabel('Years looked ahead').fill('4')
  for (const metres of await need.getByLabel(/, m a year$/).all()) await metres.fill('12')
  await need.getByRole('button', { name: 'Choose the rows' }).click()
  await section('Year by year').waitFor()
  const rows = section('Rows of the plan')
  await rows.locator('tbody .in-row').first().click()
  const places = section('Places in the bed')
  await places.getByText(/^Taken: /).waitFor()
  expect(await places.getByRole('button', { name: 'Not here' }).count()).toBe(3)
  expect(await axeFinds(page)).toEqual([])
  await page.getByRole('button', { name: 'Keep this plan' }).click()
  const kept = section('Kept plans')
  await kept.waitFor()
  await need.getByLabel('Years looked ahead').fill('9')
  await page.getByText('The need has changed since: choose again.').waitFor()
  await kept.getByRole('button', { name: /^Look at / }).click()
  await expect.poll(() => need.getByLabel('Years looked ahead').inputValue()).toBe('4')
  await page.getByText('The need has changed since: choose again.').waitFor({ state: 'detached' })
  await page
    .getByText(/^Keep the plan /)
    .first()
    .waitFor({ state: 'attached' })
})

it('shows shadows by the hour, the sun lost by bed and canopies to come, with nothing that axe finds', async () => {
  await show('Shadows')
  await section('What throws shadows').waitFor()
  const slide = page.locator('.siting-strip input[type=range]')
  const before = await words(figure(page))
  await slide.focus()
  for (let n = 0; n < 12; n++) await slide.press('ArrowLeft')
  await expect.poll(() => words(figure(page))).not.toBe(before)
  await show('Canopies to come')
  await section('Trees by year').waitFor()
  expect(await axeFinds(page)).toEqual([])
  await show('Sun lost')
  await page.getByLabel('To', { exact: true }).fill('2020-01-01')
  await page.getByRole('button', { name: 'Reckon the sun lost' }).click()
  await page.getByText('This lies before the first day.').waitFor()
  const from = await page.getByLabel('From', { exact: true }).inputValue()
  await page.getByLabel('To', { exact: true }).fill(`${from.slice(0, 8)}20`)
  await page.getByRole('button', { name: 'Reckon the sun lost' }).click()
  await section('Sun lost by bed').waitFor()
  await page.setViewportSize(PHONE_SIZE)
  await page.getByRole('button', { name: 'Table', exact: true }).click()
  await section('Sun lost by bed').waitFor()
  expect(await axeFinds(page)).toEqual([])
  await page.setViewportSize(DESK_SIZE)
})
