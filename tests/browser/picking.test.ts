import { readFile } from 'node:fs/promises'
import { parse } from 'csv-parse/sync'
import { unzipSync } from 'fflate'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import {
  axeFinds,
  clickMap,
  DESK_SIZE,
  figure,
  goToSheet,
  openDemo,
  PHONE_SIZE,
  smallTargets,
  tap,
  words,
} from './pageActs.ts'

/** A place on the demo farm between the rows of a bed of its own, and how sure the device is of it. */
const STANDS = { latitude: 46.33725, longitude: 15.6405, accuracy: 3 }

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage({
    ready: async ({ context }) => {
      await context.grantPermissions(['geolocation'])
      await context.setGeolocation(STANDS)
    },
  })
  page = held.page
  await openDemo(page)
  await goToSheet(page, 'picking')
})
afterAll(() => held?.close())

const entry = () => page.getByRole('form', { name: /Enter a pick|Put a pick right/ })
const keep = () => entry().getByRole('button', { name: 'Keep this pick' })
const kept = () => entry().getByRole('status')
const total = async () => Number((await words(figure(page))).replace(/[^\d.]/g, ''))
const shown = (name: string) => page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name })
const place = (n: number) => entry().locator('.place').nth(n)

/** Touches the middle of a thing as a finger does: no mouse is moved. */
/** The tables of the farm as it would be saved. */
async function savedTable(name: string): Promise<Record<string, string>[]> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as an archive' }).click(),
  ])
  const files = unzipSync(new Uint8Array(await readFile(await download.path())))
  return parse(new TextDecoder().decode(files[name]), { columns: true, record_delimiter: '\r\n' })
}

describe('on a phone in the field', () => {
  beforeAll(async () => {
    await page.setViewportSize(PHONE_SIZE)
    await shown('Pick').click()
    await place(1).waitFor()
  })
  afterAll(() => page.setViewportSize(DESK_SIZE))

  it('enters a pick by touch in three taps and under ten seconds', async () => {
    const steps = async () => words(page.getByRole('button', { name: /^Undo/ }).first())
    const before = await steps()
    const begun = performance.now()
    const taps: Locator[] = [place(0), entry().getByRole('button', { name: '7', exact: true }), keep()]
    for (const one of taps) await tap(one)
    await expect.poll(() => words(kept())).toMatch(/^Kept: 7 \S+ of \S+.*, O\d+/)
    expect(taps).toHaveLength(3)
    expect(performance.now() - begun).toBeLessThan(10_000)
    expect(before).not.toBe('')
  })

  it('tells how sure the device is of its place, and takes a kept pick back at once', async () => {
    expect(await words(entry().locator('.places legend'))).toMatch(/within 3 m/)
    await tap(entry().getByRole('button', { name: 'Undo' }))
    await kept().waitFor({ state: 'detached' })
    await expect.poll(() => page.getByRole('button', { name: /^Redo: Pick 7/ }).count()).toBe(1)
  })

  it.each([0, 80, 150])('keeps one pick where Keep is tapped twice within %i ms', async (pause) => {
    const last = () => words(page.getByRole('button', { name: /^Undo: / }).first())
    const before = await last()
    await tap(entry().getByRole('button', { name: '6', exact: true }))
    await keep().evaluate(async (button: HTMLElement, ms) => {
      button.click()
      if (ms > 0) await new Promise((go) => setTimeout(go, ms))
      button.click()
    }, pause)
    await expect.poll(() => words(kept())).toMatch(/^Kept: 6 /)
    expect(await entry().locator('.fault').count()).toBe(0)
    await tap(entry().getByRole('button', { name: 'Undo' }))
    await expect.poll(last).toBe(before)
    await kept().waitFor({ state: 'detached' })
  })

  it('says at its place what is missing, and loses nothing', async () => {
    await tap(entry().getByRole('button', { name: '½' }))
    await tap(entry().getByRole('button', { name: 'Take the last digit away' }))
    await tap(entry().getByRole('button', { name: 'Take the last digit away' }))
    await tap(keep())
    expect(await words(entry().locator('.how-much .fault, .how-heavy .fault'))).toContain('Say how much')
    expect(await page.getByLabel('How much').getAttribute('aria-invalid')).toBe('true')
  })

  it('remembers who picked, divides the pick evenly, and tells what is not shared out', async () => {
    await entry().locator('summary').click()
    const chips = (label: string) => entry().getByRole('group', { name: label, exact: true }).getByRole('button')
    await chips('Picked by').first().click()
    const who = await words(chips('Picked by').first())
    await chips('Who has it').nth(0).click()
    await chips('Who has it').nth(1).click()
    const parts = entry().getByRole('combobox', { name: /^Part of/ })
    expect(await parts.evaluateAll((all: HTMLSelectElement[]) => all.map((one) => one.value))).toEqual(['0.5', '0.5'])
    await parts.first().selectOption('0.25')
    expect(await words(entry().locator('.shares .hint'))).toBe('Not shared out: ¼.')
    await entry().locator('summary').click()
    await entry().getByRole('button', { name: '4', exact: true }).click()
    await keep().click()
    await expect.poll(() => words(kept())).toMatch(/^Kept: 4/)
    expect(await words(entry().locator('.pick-told'))).toBe(`by ${who}`)
  })

  it('has targets of 44 pixels and nothing that axe finds, in the entry and in the table', async () => {
    for (const pane of ['Pick', 'Table', 'Map']) {
      await shown(pane).click()
      expect([pane, await smallTargets(page)]).toEqual([pane, []])
      expect([pane, await axeFinds(page)]).toEqual([pane, []])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE_SIZE.width)
    }
    await shown('Pick').click()
  })
})

describe('at a desk', () => {
  beforeEach(() => page.locator('.chart').waitFor())

  it('takes a place from the map by mouse, a container and its weight, and adds the mass to the season', async () => {
    const before = await total()
    await page.getByRole('button', { name: 'All', exact: true }).click()
    await page.waitForTimeout(700)
    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    await clickMap(page, box.width * 0.22, box.height * 0.6)
    await expect.poll(() => words(entry().locator('.places legend'))).toBe('Where you tapped')
    await entry().getByRole('button', { name: 'more' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Another container' }).click()
    await page.getByLabel('Container', { exact: true }).fill('basket')
    await page.getByLabel(/^One full weighs/).fill('2,5')
    await page.getByLabel('Source').fill('weighed in the test')
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Keep this weight' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
    await expect
      .poll(() => words(entry().locator('.how-heavy')))
      .toMatch(/basket[\s\S]*2.5 kg each[\s\S]*weighed in the test/)
    await entry().getByRole('button', { name: '8', exact: true }).click()
    await keep().click()
    await expect.poll(total).toBe(before + 20)
  })

  it('is worked by keys alone', async () => {
    const before = await total()
    await page.getByLabel('How much').focus()
    await page.keyboard.type('3,5')
    await page.keyboard.press('Enter')
    await expect.poll(() => words(kept())).toMatch(/^Kept: 3.5 basket/)
    await expect.poll(total).toBeGreaterThan(before)
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    await expect.poll(total).toBe(before)
  })

  it('puts a pick right and strikes one out, the reasons kept in the archive', async () => {
    const first = () => page.locator('section[aria-label="Picks"] button.in-row').first()
    await first().click()
    await page.getByRole('button', { name: 'Put right' }).click()
    await page.getByLabel('How much').fill('9')
    await entry().getByRole('button', { name: 'Keep it so' }).click()
    expect(await words(entry().locator('.pick-reason .fault'))).toBe('Say why it is put right.')
    await entry().getByRole('button', { name: 'mistyped' }).click()
    await entry().getByRole('button', { name: 'Keep it so' }).click()
    await expect.poll(() => words(first())).toMatch(/^9 /)
    await first().click()
    await page.getByRole('article').getByText('mistyped').waitFor()
    await page.getByRole('button', { name: 'Strike out' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'told twice' }).click()
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Strike it out' }).click()
    await expect.poll(() => words(first())).not.toMatch(/^9 /)
    const margin = await savedTable('corrections.csv')
    expect(margin.map(({ kind, deed, reason }) => [kind, deed, reason])).toEqual([
      ['picks', 'changed', 'mistyped'],
      ['picks', 'removed', 'told twice'],
    ])
    expect(margin[0]!.now).toBe(margin[1]!.was)
    expect(margin[0]!.was).toMatch(/ in O\d+|basket/)
  })

  it('settles by household where the grower says who belongs to which, kept as a step and taken back', async () => {
    const settled = page.getByRole('region', { name: 'Who picked, who had it' })
    await settled.getByText('Who belongs to which household').click()
    const people = settled.locator('.who-belongs label')
    const person = await words(people.first().locator('span'))
    const line = (name: string) =>
      settled
        .getByRole('table')
        .first()
        .getByRole('row', { name: new RegExp(`^${name}`) })
    await line(person).waitFor()
    const house = (await people.first().locator('option').nth(1).textContent())!
    await people.first().locator('select').selectOption(house)
    await line(person).waitFor({ state: 'detached' })
    expect(await words(page.locator('.steps .step-name').first())).toBe(`${person} shares with ${house}`)
    expect(await axeFinds(page)).toEqual([])
    await page.keyboard.press('Control+z')
    await line(person).waitFor()
    expect(await people.first().locator('select').inputValue()).toBe('')
  })

  it('shows the season by week, crop, bed and person, chart and table alike, by day and by night', async () => {
    for (const light of ['Night', 'Day']) {
      for (const by of ['week', 'crop', 'bed', 'person']) {
        await page.locator('.so-far .choice').getByText(by, { exact: true }).click()
        await page.locator('.so-far .chart rect').first().waitFor()
        const cells = await page
          .locator('.so-far tbody tr')
          .evaluateAll((all) => all.map((row) => Number(row.lastElementChild!.textContent!.replace(/,/g, ''))))
        expect(cells.length).toBeGreaterThan(2)
        const more = await page
          .locator('.so-far')
          .getByRole('button', { name: /^Show all/ })
          .count()
        if (more === 0) {
          const sum = cells.reduce((all, one) => all + one, 0)
          expect(Math.abs(sum - (await total()))).toBeLessThan(0.5 * cells.length + 0.5)
        }
      }
      expect([light, await axeFinds(page)]).toEqual([light, []])
      await page.getByRole('button', { name: light, exact: true }).click()
    }
  })

  it('brings an old notebook in as one step, what is sound of it, after asking what it can’t know', async () => {
    const before = await total()
    await page.getByRole('button', { name: 'Bring it in' }).click()
    const lines = [
      'Date;Bed;Qty;Unit;Who',
      '03/08/2026;O4;1,5;kg;Ana',
      '04/08/2026;O4;2;kg;Bor',
      '05/08/2026;O4;x;kg;',
      '06/08/2026;Z99;1;kg;Ana',
    ]
    await page.getByLabel('Its lines').fill(lines.join('\n'))
    const outcome = page.getByRole('region', { name: 'What would be kept' })
    await expect.poll(() => words(outcome)).toMatch(/0.0 kg in 0 picks/)
    await page.getByText('the day first').click()
    await expect.poll(() => words(outcome)).toMatch(/3.5 kg in 2 picks, from 2 of 4 lines/)
    expect(await words(outcome)).toMatch(/4\s+“x” is not a quantity/)
    expect(await axeFinds(page)).toEqual([])
    await page.getByLabel('What Z99 means').selectOption({ label: 'Z9' })
    await page.getByRole('button', { name: 'Keep 3 picks' }).click()
    // The figure is told in whole kilograms.
    await expect.poll(async () => Math.abs((await total()) - before - 4.5)).toBeLessThanOrEqual(1)
    await page.keyboard.press('Control+z')
    await expect.poll(total).toBe(before)
  })
})
