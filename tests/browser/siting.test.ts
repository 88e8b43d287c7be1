import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { CAUTIONS } from '../../src/sheets/cautions.ts'
import { hasPoppler, poppler } from '../unit/print/readPdf.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, figure, goToSheet, openDemo, PHONE_SIZE, words } from './pageActs.ts'

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  page.setDefaultTimeout(90_000)
  await openDemo(page)
  await goToSheet(page, 'siting')
})
afterAll(() => held?.close())

const section = (name: string) => page.getByRole('region', { name })
const dense = (text: string) => text.replace(/\s+/g, '')
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
  // Why the tapped row was taken is seen where it was tapped: first of the bed's places, within the pane.
  const why = await places.locator('.site p').first().boundingBox()
  const pane = await page.locator('.table-pane').boundingBox()
  expect(await words(places.locator('.site p').first())).toMatch(/^Taken: /)
  expect(why!.y).toBeGreaterThanOrEqual(pane!.y)
  expect(why!.y).toBeLessThan(pane!.y + pane!.height)
  expect(await places.getByRole('button', { name: 'Not here' }).count()).toBe(3)
  expect(await axeFinds(page)).toEqual([])
  // Another side of a bed than that chosen, or than that where one stands: there is something to build.
  const left = places.locator('.site').filter({ hasText: 'Left: ' }).first()
  await left.getByRole('button', { name: 'Take it' }).click()
  await page.getByText('The need has changed since: choose again.').waitFor()
  await need.getByRole('button', { name: 'Choose the rows' }).click()
  await page.getByText('The need has changed since: choose again.').waitFor({ state: 'detached' })
  await places.getByText(/^Taken: .*it is asked for/).waitFor()
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
  // Listed once, as the farm holds it, while what the step made stale is told anew, and when it is taken back.
  expect(await kept.getByRole('listitem').count()).toBe(1)
  await kept.getByRole('button', { name: /^Remove / }).click()
  await kept.waitFor({ state: 'detached' })
  await page.keyboard.press('Control+z')
  await kept.waitFor()
  expect(await kept.getByRole('listitem').count()).toBe(1)
})

it('tells what each year takes, whose money is that of the plan, on the sheet and as CSV', async () => {
  const byYear = section('Year by year')
  const bill = section('Materials of the year')
  const [first, second] = await byYear.locator('table').first().locator('.in-row').allInnerTexts()
  await bill.getByRole('heading', { name: `What ${first} takes` }).waitFor()
  await byYear.getByRole('button', { name: second!, exact: true }).click()
  await bill.getByRole('heading', { name: `What ${second} takes` }).waitFor()
  expect(await words(bill.locator('thead th'))).toMatch(/part needed new cost/)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    bill.getByRole('button', { name: 'Save as CSV' }).click(),
  ])
  expect(download.suggestedFilename()).toBe(`materials-${first}.csv`)
  // No cell of the demo's holds a comma but a part's name, which stands quoted before its numbers.
  const [head, ...lines] = (await readFile(await download.path(), 'utf8')).trim().split('\r\n')
  expect(head).toBe('year,use,part,unit,lasts_seasons,needed,bought,cost')
  const money = lines.reduce((sum, line) => sum + Number(line.split(',').at(-1)), 0)
  const told = (await words(figure(page).locator('xpath=..'))).match(/Over these years it costs ([\d,]+)/)![1]!
  expect(Math.round(money)).toBe(Number(told.replaceAll(',', '')))
})

it.skipIf(!hasPoppler)(
  'prints the staking-out sheet: two fixed points, a tape from each to both ends, parts',
  async () => {
    await section('Rows of the plan').getByRole('button', { name: 'Staking-out sheet' }).click()
    const dialog = page.getByRole('dialog', { name: 'Print: Staking-out sheet' })
    await dialog.getByRole('img', { name: /^Page 1 of / }).waitFor()
    const save = dialog.getByRole('button', { name: 'Save as PDF' })
    await expect.poll(() => save.isEnabled()).toBe(true)
    const [download] = await Promise.all([page.waitForEvent('download'), save.press('Enter')])
    const bytes = new Uint8Array(await readFile(await download.path()))
    const text = poppler('pdftotext', bytes, '-layout')
    expect(text).toMatch(/Tape from A, .+, and from B, .+/)
    const builds = (await section('Rows of the plan').locator('tbody tr').allInnerTexts()).filter(
      (row) => !/stands/.test(row),
    )
    // Two metres to each end, the ends of a run no farther apart by either tape than it is long (triangle inequality).
    const ends = [...text.matchAll(/([a-z-]+) end\s+([\d.,]+) m\s+([\d.,]+) m\s+(left|right)/g)]
    expect(ends).toHaveLength(2 * builds.length)
    const longM = [...text.matchAll(/: ([\d.]+) m, in 20\d\d/g)].map(([, m]) => Number(m))
    expect(longM).toHaveLength(builds.length)
    longM.forEach((m, n) => {
      for (const tape of [2, 3])
        expect(Math.abs(Number(ends[2 * n]![tape]) - Number(ends[2 * n + 1]![tape]))).toBeLessThanOrEqual(m + 0.02)
    })
    expect(text).toMatch(/Parts to have at hand in 20\d\d/)
    for (const caution of CAUTIONS.siting) expect(dense(poppler('pdftotext', bytes))).toContain(dense(caution))
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
  },
)

it('makes a row of the plan a support that stands, told on the Supports sheet, and taken back', async () => {
  const rows = section('Rows of the plan')
  const fresh = rows.locator('tbody tr').filter({ hasNotText: 'stands' }).first()
  await fresh.waitFor()
  const bed = (await words(fresh.locator('.in-row'))).split(',')[0]!
  const places = section('Places in the bed')
  if ((await words(places.locator('h2'))) !== `Places in ${bed}`) await fresh.locator('.in-row').click()
  await places.getByRole('heading', { name: `Places in ${bed}`, exact: true }).waitFor()
  await places.getByRole('button', { name: /^It is built/ }).click()
  await places.getByText(/^A permanent support stands here on /).waitFor()
  expect(await places.getByRole('button', { name: /^It is built/ }).count()).toBe(0)
  await goToSheet(page, 'supports')
  const runs = section('Support runs')
  await runs.waitFor()
  // The day shown is the demo's, Aug 9, 2026: what is put up on it is in its first season.
  const stands = async () =>
    (await runs.locator('tr').allTextContents()).filter(
      (row) => row.startsWith(`${bed}Wirework with braced ends`) && /Aug\s9,\s20261, left up$/.test(row),
    ).length
  await expect.poll(stands).toBe(1)
  await page.keyboard.press('Control+z')
  await expect.poll(stands).toBe(0)
  await goToSheet(page, 'siting')
  await section('Year by year').waitFor()
})

it('makes all rows that the plan builds first supports that stand, as one step, and takes them back as one', async () => {
  const rows = section('Rows of the plan')
  const built = await rows.locator('tbody tr').evaluateAll((all) => all.map((row) => row.children[2]!.textContent!))
  const years = built.filter((told) => told !== 'stands')
  const first = years.toSorted()[0]!
  const count = years.filter((year) => year === first).length
  const deed = rows.getByRole('button', { name: /built: put (it|them) up on Aug 9, 2026/ })
  const told = count === 1 ? `The row of ${first} is built` : `The ${count} rows of ${first} are built`
  expect(await words(deed)).toContain(told)
  await deed.click()
  const step = page.locator('.steps .step-name').first()
  await expect
    .poll(() => words(step))
    .toMatch(count === 1 ? /^Build the support in / : `Build ${count} permanent supports`)
  // What is left is a later year's, or nothing.
  await expect.poll(() => words(rows)).not.toContain(told)
  expect(await words(rows)).toMatch(
    count === years.length ? /All rows of the plan stand on Aug 9, 2026/ : /put (it|them) up on/,
  )
  await page.keyboard.press('Control+z')
  await expect.poll(() => words(deed)).toContain(told)
})

it('lists what is put up for a season and the stock to lift first, by the year that the map shows, on paper and as CSV', async () => {
  await goToSheet(page, 'ground')
  await page.locator('.table-pane').getByRole('button', { name: 'S16', exact: true }).click()
  await goToSheet(page, 'siting')
  const need = page.getByRole('form', { name: 'The need' })
  for (const metres of await need.getByLabel(/, m a year$/).all()) await metres.fill('40')
  await section('Places in the bed').getByRole('button', { name: 'Take it' }).first().click()
  await need.getByRole('button', { name: 'Choose the rows' }).click()
  await page.getByText('The need has changed since: choose again.').waitFor({ state: 'detached' })
  // Three lots stand in it, one a row (the demo's nursery): none can be in the way of what is built in its second year.
  const lift = section('Stock to lift first').locator('tbody tr').filter({ hasText: 'S16' })
  expect(await lift.count()).toBe(3)
  for (const line of await lift.allInnerTexts())
    expect(line).toMatch(/S16, (west edge|middle|east edge)\s.*\d+\s+20(2[89]|30)$/)
  const oneSeason = await section('Rows of one season').locator('tbody tr').allInnerTexts()
  const spans = oneSeason.flatMap((line) => [...line.matchAll(/(20\d\d)(?:–(20\d\d))?/g)])
  const seasons = spans.reduce((sum, [, from, to]) => sum + Number(to ?? from) - Number(from) + 1, 0)
  expect(seasons).toBeGreaterThan(0)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    section('Rows of the plan').getByRole('button', { name: 'Save the rows as CSV' }).click(),
  ])
  const [head, ...lines] = (await readFile(await download.path(), 'utf8')).trim().split('\r\n')
  expect(head).toBe('support,bed,side,length_m,built,year,family')
  expect(lines.filter((line) => line.startsWith('one season,'))).toHaveLength(seasons)
  const slide = page.locator('.siting-strip input[type=range]')
  const first = Number(await slide.inputValue())
  await slide.focus()
  await slide.press('ArrowRight')
  await page.getByRole('heading', { name: `The plan in ${first + 1}` }).waitFor()
  await section('Materials of the year')
    .getByRole('heading', { name: `What ${first + 1} takes` })
    .waitFor()
  expect(await axeFinds(page)).toEqual([])
  if (!hasPoppler) return
  await section('Rows of the plan').getByRole('button', { name: 'Staking-out sheet' }).click()
  const dialog = page.getByRole('dialog', { name: 'Print: Staking-out sheet' })
  const save = dialog.getByRole('button', { name: 'Save as PDF' })
  await expect.poll(() => save.isEnabled()).toBe(true)
  const [paper] = await Promise.all([page.waitForEvent('download'), save.press('Enter')])
  const text = poppler('pdftotext', new Uint8Array(await readFile(await paper.path())), '-layout')
  expect(text).toMatch(/Stock to lift first[\s\S]*S16, west edge\s+Field maple\s+\d+\s+20\d\d/)
  expect(text).toMatch(/Along supports of one season[\s\S]*(Solanaceae|Fabaceae|Cucurbitaceae) 20\d\d/)
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
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
