import { readFile } from 'node:fs/promises'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { CAUTIONS } from '../../src/sheets/cautions.ts'
import { SHEET_TITLE, SHEETS } from '../../src/sheets/names.ts'
import { hasPoppler, poppler } from '../unit/print/readPdf.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, openDemo, PHONE_SIZE, showDay, smallTargets, tap, words } from './pageActs.ts'

let held: HeldPage
let page: Page
let dialog: Locator

beforeAll(async () => {
  held = await holdPage({ painted: true })
  page = held.page
  await openDemo(page)
  await showDay(page, '2026-08-09')
  dialog = page.getByRole('dialog', { name: 'Print a sheet' })
})
afterAll(() => held?.close())

async function openDialog(): Promise<void> {
  await page.getByRole('button', { name: 'Farm', exact: true }).focus()
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Print this sheet' }).focus()
  await page.keyboard.press('Enter')
  await ready()
}

/** Settles when the pages are laid and what is saved is what is shown. */
async function ready(): Promise<void> {
  await dialog.getByRole('img', { name: /^Page 1 of / }).waitFor()
  const save = dialog.getByRole('button', { name: 'Save as PDF' })
  // A sheet tells that it changes when it begins to, which may be a moment after it was asked.
  for (let still = 0; still < 3; still = (await save.isEnabled()) ? still + 1 : 0) await page.waitForTimeout(200)
}

async function saved(name: 'Save as PDF' | 'Save as PNG'): Promise<{ name: string; bytes: Uint8Array }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name }).press('Enter'),
  ])
  return { name: download.suggestedFilename(), bytes: new Uint8Array(await readFile(await download.path())) }
}

const dense = (text: string) => text.replace(/\s+/g, '')

describe('printing', () => {
  it('opens by keys, and axe finds nothing amiss', async () => {
    await openDialog()
    expect(await axeFinds(page)).toEqual([])
  })

  it.skipIf(!hasPoppler)(
    'prints every sheet with its legend, table, title block and cautions, as poppler reads it',
    async () => {
      for (const sheet of SHEETS) {
        await dialog.getByLabel('Sheet to print').selectOption(sheet)
        await ready()
        if (sheet === 'yield') await page.locator('section[aria-label="Bed by bed"]').waitFor({ state: 'attached' })
        if (sheet === 'yield') await ready()
        const { name, bytes } = await saved('Save as PDF')
        expect(name).toMatch(new RegExp(`${SHEET_TITLE[sheet]} – 2026-08-09\\.pdf$`))
        const text = dense(poppler('pdftotext', bytes))
        const legend = await page.locator('.map-pane .legend .legend-line').allInnerTexts()
        const heads = await page.locator('.table-pane table').first().locator('thead th').allInnerTexts()
        const said = [...CAUTIONS[sheet], ...legend, ...heads.map((head) => head.replace(/[↓↑]/, ''))]
        expect(said.length).toBeGreaterThan(2)
        // Its chart by weeks, whose months stand in a row.
        if (sheet === 'picking') expect(text).toContain('JanFebMarAprMay')
        for (const wanted of [...said, SHEET_TITLE[sheet], '1:1000', 'invented demo farm', 'Aug 9, 2026'])
          expect([sheet, text.includes(dense(wanted)) ? wanted : text]).toEqual([sheet, wanted])
        // What is for doing stays on the screen.
        const deeds = await page.locator('.table-pane :is(.deeds, .deeds-quiet):has(> button)').allInnerTexts()
        for (const deed of deeds) expect([sheet, text.includes(dense(deed)) ? deed : '']).toEqual([sheet, ''])
        if (sheet === 'supports' || sheet === 'growing') expect(deeds).not.toEqual([])
        const fonts = poppler('pdffonts', bytes).trim().split('\n').slice(2)
        for (const line of fonts) expect(line).toMatch(/ yes yes yes /)
      }
    },
  )

  it('prints one field larger on tall paper, over several pages at a larger scale, and says when that is too many', async () => {
    await dialog.getByLabel('Sheet to print').selectOption('supports')
    await dialog.getByLabel('What is on the map').selectOption({ label: 'Orehova loka' })
    await dialog.getByText('Portrait').click()
    await ready()
    expect(await words(dialog.getByLabel('Scale', { exact: true }).locator('option').first())).toMatch(/1:250|1:500/)
    await dialog.getByLabel('Scale', { exact: true }).selectOption('100')
    await dialog.getByRole('img', { name: /Index of maps at 1:100/ }).waitFor()
    await dialog.getByLabel('Scale', { exact: true }).selectOption('other')
    await dialog.getByLabel('Scale, 1 to').fill('3')
    await dialog.getByLabel('Scale, 1 to').press('Tab')
    expect(await words(dialog.getByRole('alert'))).toMatch(/whole number/)
    await dialog.getByLabel('Scale, 1 to').fill('1:10')
    await dialog.getByLabel('Scale, 1 to').press('Tab')
    await expect.poll(() => words(dialog.getByRole('alert'))).toMatch(/would take \d+ pages/)
    await dialog.getByLabel('Scale', { exact: true }).selectOption('fits')
    await ready()
  })

  it('saves a PNG that says its dots to the inch', async () => {
    await dialog.getByText('Table', { exact: true }).click()
    await dialog.getByLabel('Sharpness of a PNG').selectOption('150')
    await dialog.getByRole('img', { name: /^Page 1 of 1/ }).waitFor()
    const { name, bytes } = await saved('Save as PNG')
    expect(name).toMatch(/\.png$/)
    const view = new DataView(bytes.buffer)
    // PNG 3rd edition, 11.2.2 and 11.3.4.3: IHDR's width and height, then pHYs with dots to the metre (C2).
    expect(new TextDecoder().decode(bytes.subarray(37, 41))).toBe('pHYs')
    expect(view.getUint32(41)).toBe(Math.round(150 / 0.0254))
    const [wideIn, highIn] = [view.getUint32(16) / 150, view.getUint32(20) / 150]
    // Letter, since the browser of these tests is in the United States.
    expect(wideIn).toBeCloseTo(8.5, 1)
    expect(highIn).toBeCloseTo(11, 1)
  })

  it('serves a phone: targets of 44 pixels, nothing wider than the screen, and leaves the sheet as it was', async () => {
    await page.setViewportSize(PHONE_SIZE)
    await page.waitForTimeout(300)
    expect(await smallTargets(dialog)).toEqual([])
    expect(await page.evaluate(() => document.querySelector('dialog')!.scrollWidth)).toBeLessThanOrEqual(
      PHONE_SIZE.width,
    )
    expect(await axeFinds(page)).toEqual([])
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
  })

  it.skipIf(!hasPoppler)('is opened, chosen in, saved and left by finger', async () => {
    await tap(page.getByRole('button', { name: 'Farm', exact: true }))
    await tap(page.getByRole('button', { name: 'Print this sheet' }))
    await ready()
    await tap(dialog.getByText('Landscape', { exact: true }))
    await ready()
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      tap(dialog.getByRole('button', { name: 'Save as PDF' })),
    ])
    const bytes = new Uint8Array(await readFile(await download.path()))
    expect(poppler('pdfinfo', bytes)).toMatch(/Page size: +792 x 612 pts \(letter\)/)
    await tap(dialog.getByRole('button', { name: 'Close' }))
    await dialog.waitFor({ state: 'detached' })
    await page.setViewportSize(DESK_SIZE)
    await page.getByRole('heading', { level: 1, name: 'Ground' }).waitFor()
  })

  it.skipIf(!hasPoppler)('prints a name in letters that no bundled font has, as pictures', async () => {
    const inTable = page.locator('section[aria-label="Beds"]')
    await inTable.getByRole('button', { name: 'O1', exact: true }).click()
    await page.getByRole('button', { name: 'Change', exact: true }).click()
    await page.getByRole('form', { name: 'Change O1' }).getByLabel('Name').fill('畑 O1')
    await page.getByRole('form', { name: 'Change O1' }).getByRole('button', { name: /^Keep/ }).click()
    await inTable.getByRole('button', { name: '畑 O1', exact: true }).waitFor()
    await openDialog()
    await dialog.getByText('Table', { exact: true }).click()
    await dialog.getByText(/the bundled fonts lack them: 畑/).waitFor()
    await ready()
    const { bytes } = await saved('Save as PDF')
    // Two lines of heads, then the letter as a picture with what is see-through of it.
    expect(poppler('pdfimages', bytes, '-list').trim().split('\n').length).toBeGreaterThan(3)
  })
})
