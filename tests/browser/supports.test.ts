import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, goToSheet, openDemo, PHONE_SIZE, smallTargets, tap, words } from './pageActs.ts'

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  await openDemo(page)
  await goToSheet(page, 'supports')
})
afterAll(() => held?.close())

const section = (name: string) => page.getByRole('region', { name })
const part = (name: string) => page.locator('.supports-more .choice').first().getByText(name, { exact: true })
const runs = () => section('Support runs')

it('tells what the farm’s runs take, and one run by itself when its card is open', async () => {
  const bill = section('Bill of materials')
  await bill.getByText('To build all of this anew').waitFor()
  await bill.getByText('To buy for the whole farm').waitFor()
  const whole = await words(bill.locator('.figure-value'))
  expect(Number(whole.replace(/[^\d]/g, ''))).toBeGreaterThan(0)
  await runs().locator('tbody .in-row').first().click()
  await page.getByRole('article').getByText('parts, new').waitFor()
  expect(await words(bill.locator('.figure-value'))).not.toBe(whole)
  // The posts on the card are those of the bill.
  const posts = Number(await words(page.locator('.card-pane dt', { hasText: /^posts$/ }).locator('+ dd')))
  expect(posts).toBeGreaterThan(1)
})

it('notes by taps what work on a run took, and reckons with it where asked', async () => {
  const card = page.getByRole('article')
  await card.getByText('Time that it took').click()
  await card.getByRole('button', { name: 'Note the time' }).click()
  await card.getByText('How many minutes?').waitFor()
  await card.getByRole('button', { name: 'tend', exact: true }).click()
  await card.getByRole('button', { name: '90', exact: true }).click()
  await card.getByRole('button', { name: 'Note the time' }).click()
  await card
    .getByRole('button', { name: /^Strike out tend/ })
    .first()
    .waitFor()
  const bill = section('Bill of materials')
  const labour = bill.locator('.figure-grounds')
  const told = await words(labour)
  await bill.getByRole('button', { name: 'as timed here' }).click()
  await expect.poll(() => words(labour)).not.toBe(told)
  expect(await axeFinds(page)).toEqual([])
  await bill.getByRole('button', { name: 'as the systems tell' }).click()
})

it('keeps what is in store, and tells what is wrong at its field', async () => {
  await section('Bill of materials').getByRole('button', { name: 'What is in store' }).click()
  const dialog = page.getByRole('dialog', { name: 'What is in store' })
  await dialog.getByRole('button', { name: 'Add a part' }).click()
  await dialog.getByLabel('Part').fill('net')
  await dialog.getByLabel('Length').fill('a lot')
  await dialog.getByRole('button', { name: 'Keep' }).click()
  await dialog.getByText('“a lot” is not a length.').waitFor()
  expect(await axeFinds(page)).toEqual([])
  await dialog.getByLabel('Length').fill('40')
  await dialog.getByRole('button', { name: 'Keep' }).click()
  await dialog.getByRole('button', { name: 'Remove net' }).click()
  await dialog.getByText('Nothing yet').waitFor()
  await dialog.getByRole('button', { name: 'Close' }).click()
})

it('adds a system from the catalogue as one step, tells a fault at its field, and takes it back', async () => {
  await page.getByRole('button', { name: 'Systems', exact: true }).click()
  const dialog = page.getByRole('dialog', { name: 'Support systems' })
  await dialog.getByRole('button', { name: 'From the catalogue' }).click()
  await dialog.getByRole('button', { name: 'Add Permanent wirework with braced ends' }).click()
  await dialog.getByRole('button', { name: 'Change Permanent wirework with braced ends' }).click()
  expect(await axeFinds(page)).toEqual([])
  await dialog.getByLabel('How many').first().fill('plenty')
  await dialog.getByRole('button', { name: 'Keep this system' }).click()
  await dialog.getByText('“plenty” can’t be counted by').waitFor()
  await dialog.getByLabel('How many').first().fill('2 per end')
  await dialog.getByRole('button', { name: 'Keep this system' }).click()
  await dialog.getByRole('button', { name: 'From the catalogue' }).waitFor()
  await dialog.getByRole('button', { name: 'Close' }).click()
  const undo = page.getByRole('button', { name: /^Undo/ }).first()
  await undo.click()
  await undo.click()
  await page.getByText('Taken back: Add Permanent wirework').waitFor({ state: 'attached' })
})

it('shows season, years, load and wear, with nothing that axe finds, at desk and phone', async () => {
  for (const [name, region] of [
    ['season', 'Held through the season'],
    ['years', 'Systems over the years'],
    ['load', 'Load check'],
    ['wear', 'Age and condition'],
  ] as const) {
    await part(name).click()
    await section(region).waitFor()
    expect(await axeFinds(page), name).toEqual([])
  }
  await part('load').click()
  await section('Load check').getByLabel('Gusts').fill('many')
  await section('Load check').getByText('“many” is not a number.').waitFor()
  await section('Load check').getByLabel('Gusts').fill('35')
  await section('Load check').getByText('Ask a licensed person').waitFor()
  await page.setViewportSize(PHONE_SIZE)
  expect(await axeFinds(page)).toEqual([])
  await page.setViewportSize(DESK_SIZE)
})

it('puts a run up along a bed’s edge by finger, as one step that Undo takes back', async () => {
  await page.setViewportSize(PHONE_SIZE)
  const pane = (name: string) => tap(page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name }))
  const run = () => runs().locator('tbody .in-row')
  await pane('Table')
  await part('bill').click()
  const before = await run().count()
  await page.getByRole('combobox', { name: 'Sheet' }).selectOption('ground')
  await pane('Table')
  await tap(page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'O12', exact: true }))
  await page.getByRole('combobox', { name: 'Sheet' }).selectOption('supports')
  await pane('Card')
  const card = page.getByRole('article', { name: 'O12' })
  await card.getByText('Put up a support here').click()
  const along = card.locator('.side-runs li')
  await along.first().waitFor()
  expect(await along.count()).toBe(3)
  const [, toldM, posts] = /([\d.]+) m, (\d+) posts/.exec(await words(along.first()))!
  expect(Number(posts)).toBeGreaterThan(1)
  expect(await smallTargets(card)).toEqual([])
  await tap(along.first().getByRole('button'))
  await page.getByText('Put up a support, O12').first().waitFor({ state: 'attached' })
  await pane('Table')
  await expect.poll(() => run().count()).toBe(before + 1)
  expect(await words(runs().locator('tbody tr').last())).toContain(toldM)
  await tap(page.getByRole('button', { name: /^Undo/ }).first())
  await expect.poll(() => run().count()).toBe(before)
  await page.setViewportSize(DESK_SIZE)
})
