import { readFile } from 'node:fs/promises'
import { parse } from 'csv-parse/sync'
import { unzipSync } from 'fflate'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { hasPoppler, poppler } from '../unit/print/readPdf.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import {
  axeFinds,
  DESK_SIZE,
  figure,
  goToSheet,
  openDemo,
  PHONE_SIZE,
  showDay,
  smallTargets,
  tap,
  touchMap,
  words,
} from './pageActs.ts'

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  await openDemo(page)
  await goToSheet(page, 'stock')
  await showDay(page, '2026-11-24')
  await page.getByRole('heading', { name: 'To lift' }).waitFor()
  await page.setViewportSize(PHONE_SIZE)
})
afterAll(() => held?.close())

const shown = (name: string) => page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name })
const left = async () => Number((await words(figure(page))).replace(/\D/g, ''))
const line = (label: string) =>
  page.locator('.card .lines div', { has: page.getByText(label, { exact: true }) }).locator('dd')
const number = async (label: string) => Number((await words(line(label))).replace(/[^\d−]/g, '').replace('−', '-'))
/** A number that stands beside the label in a card, once it is what it should be. */
const becomes = (label: string, value: number) => expect.poll(() => number(label)).toBe(value)

/** Touches the middle of a thing as a finger does: no mouse is moved. */
const button = (name: string | RegExp, exact = true) => page.getByRole('button', { name, exact })

/** A red picture of 2400 by 1800 pixels as a camera's file, made by the page itself. */
async function redPicture(): Promise<Buffer> {
  const bytes = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(2400, 1800)
    const context = canvas.getContext('2d')!
    context.fillStyle = '#c00'
    context.fillRect(0, 0, 2400, 1800)
    const blob = await canvas.convertToBlob({ type: 'image/png' })
    return [...new Uint8Array(await blob.arrayBuffer())]
  })
  return Buffer.from(bytes)
}

async function saved(click: () => Promise<void>): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download'), click()])
  return readFile(await download.path())
}

describe('stock on a phone, by touch', () => {
  it('sells plants of a lot, lifts what is owed, and refuses what is not there', async () => {
    await shown('Table').click()
    const before = await left()
    await tap(page.locator('section[aria-label="Lots"] button.in-row').nth(1))
    await page.getByRole('article').waitFor()
    const [sold, standing, owed] = [await number('sold'), await number('in the ground'), await number('to lift')]
    await tap(button('Sell'))
    for (const key of ['9', '9', '9']) await tap(button(key))
    await tap(button('Keep: sold'))
    await expect.poll(() => words(page.locator('form .fault'))).toMatch(/holds \d+ plants/)
    for (let i = 0; i < 3; i++) await tap(button('Take the last digit away'))
    await tap(button('2'))
    expect([await axeFinds(page), await smallTargets(page)]).toEqual([[], []])
    await tap(button('Keep: sold'))
    await becomes('sold', sold + 2)
    await becomes('to lift', owed + 2)
    await tap(button('Lift'))
    await tap(button(/^all to lift/, false))
    await tap(button('Keep: lifted'))
    await becomes('to lift', 0)
    await becomes('in the ground', standing - owed - 2)
    expect([await axeFinds(page), await smallTargets(page)]).toEqual([[], []])
    await shown('Table').click()
    await expect.poll(left).toBe(before - 2)
    expect([await axeFinds(page), await smallTargets(page)]).toEqual([[], []])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE_SIZE.width)
  })

  it('puts a sale right and strikes it out, the reason kept; undo brings it back', async () => {
    await shown('Card').click()
    const sold = await number('sold')
    await tap(button(/^Put right: 2 .* sold on/, false))
    await tap(button('3'))
    await tap(button('Keep it so'))
    expect(await words(page.locator('.pick-reason .fault'))).toBe('Say why it is put right.')
    await tap(button('Take the last digit away'))
    await tap(button('Take the last digit away'))
    await tap(button('5'))
    await tap(button('counted again'))
    await tap(button('Keep it so'))
    await becomes('sold', sold + 3)
    await tap(button(/^Strike out: 5 .* sold on/, false))
    await tap(button('told twice'))
    await tap(button('Strike it out'))
    await becomes('sold', sold - 2)
    await page.getByRole('button', { name: /^Undo/ }).first().click()
    await becomes('sold', sold + 3)
  })
})

describe('what is noted on a phone, by touch', () => {
  it('keeps something seen, at a spot tapped on the map, with a picture shrunk and in the archive', async () => {
    await tap(button('Close', false))
    await shown('Card').click()
    await tap(button('Note what is seen'))
    const form = page.getByRole('form', { name: 'Note what is seen' })
    await tap(form.getByRole('button', { name: 'Keep this note' }))
    expect(await words(form.locator('.fault'))).toMatch(/Say where[\s\S]*Say what/)
    await tap(form.getByRole('button', { name: 'Tap it on the map' }))
    await page.waitForTimeout(200)
    await touchMap(page, 180, 260)
    await form.waitFor()
    await tap(form.getByRole('button', { name: 'crack', exact: true }))
    await tap(form.getByRole('button', { name: '3 marked' }))
    await form
      .getByLabel('Choose one')
      .setInputFiles({ name: 'seen.png', mimeType: 'image/png', buffer: await redPicture() })
    await form.locator('img').waitFor()
    expect([await axeFinds(page), await smallTargets(page)]).toEqual([[], []])
    await tap(form.getByRole('button', { name: 'Keep this note' }))
    const picture = page.getByRole('article', { name: 'crack' }).locator('img')
    await expect.poll(() => picture.evaluate((one: HTMLImageElement) => one.naturalWidth)).toBe(1600)
    expect(await words(line('severity'))).toBe('3 of 5')
    expect(await axeFinds(page)).toEqual([])
  })

  it('turns kilograms in all into kilograms over the bed', async () => {
    await tap(button('Close', false))
    await shown('Card').click()
    await tap(button('Note a dressing'))
    const form = page.getByRole('form', { name: 'Note a dressing' })
    await form.getByLabel('Where').selectOption({ index: 1 })
    await tap(form.getByRole('button', { name: 'compost', exact: true }))
    await form.getByLabel('How much').fill('120')
    await form.getByText('kg in all').click()
    expect(await words(form.locator('.amount-entry .hint'))).toMatch(/^That is [\d.]+ kg\/m² of the bed\.$/)
    await tap(form.getByRole('button', { name: 'Keep this note' }))
    await expect.poll(() => words(line('in all'))).toContain('120 kg')
  })
})

describe('what goes out, at a desk', () => {
  beforeAll(async () => {
    await page.setViewportSize(DESK_SIZE)
    await goToSheet(page, 'stock')
  })

  it('saves lots and moves that csv-parse reads, and takes the same table back without doubling it', async () => {
    const csv = (await saved(() => button('Save moves as CSV').click())).toString('utf8')
    const moves = parse(csv, { columns: true, bom: true, record_delimiter: '\r\n' }) as Record<string, string>[]
    expect(moves.some(({ move, count }) => move === 'sold' && count === '5')).toBe(true)
    const lots = parse((await saved(() => button('Save lots as CSV').click())).toString('utf8'), {
      columns: true,
      bom: true,
      record_delimiter: '\r\n',
    }) as Record<string, string>[]
    expect(lots.reduce((sum, lot) => sum + Number(lot.left), 0)).toBe(await left())
    await button('Bring a table in').click()
    const dialog = page.getByRole('dialog')
    await dialog.getByLabel('Its lines').fill(`${csv}"",${lots[0]!.id},Hazel,,2026-11-24,lost,1,,,\r\n`)
    await expect.poll(() => words(dialog.getByRole('status'))).toMatch(/^1 move, from/)
    expect(await axeFinds(page)).toEqual([])
    const before = await left()
    await dialog.getByRole('button', { name: 'Keep 1 move' }).click()
    await expect.poll(left).toBe(before - 1)
  })

  it('holds note, picture and reasons in the archive', async () => {
    await button('Farm').click()
    const files = unzipSync(new Uint8Array(await saved(() => button('Save as an archive').click())))
    const text = (name: string) => new TextDecoder().decode(files[name])
    const seen = JSON.parse(text('observations.geojson')).features.find(
      ({ properties }: { properties: { kind: string; photo?: string } }) => properties.photo,
    )
    expect(seen.properties).toMatchObject({ kind: 'crack', severity: 3 })
    expect([...files[`photos/${seen.properties.photo}`]!.subarray(0, 3)]).toEqual([0xff, 0xd8, 0xff])
    const margin = parse(text('corrections.csv'), { columns: true, record_delimiter: '\r\n' }) as Record<
      string,
      string
    >[]
    expect(margin.map(({ kind, reason }) => [kind, reason])).toEqual([['stock_moves', 'counted again']])
  })

  it('lays out the lifting list and the season’s book, and saves a table for a spreadsheet', async () => {
    await button('Print the lifting list').click()
    await page.getByRole('dialog').getByRole('button', { name: 'Save as PDF' }).waitFor()
    await page.locator('.print-preview canvas').waitFor()
    const asPdf = page.getByRole('dialog').getByRole('button', { name: 'Save as PDF' })
    await expect.poll(() => asPdf.isEnabled()).toBe(true)
    const list = await saved(() => asPdf.click())
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click()
    // The demo farm's two lots of hazel in O17, by their rows.
    const lots = await words(page.locator('section[aria-label="Lots"]'))
    expect(lots).toMatch(/Hazel, layered\s*O17 middle, 60–80 cm[\s\S]*Hazel, layered\s*O17 south edge, 40–60 cm/)
    const toLift = await words(page.locator('section[aria-label="To lift"]'))
    expect(toLift).toMatch(/Hazel, layered\s*40–60 cm\s+O17 south edge\s+sold to Hedge planters\s+3/)
    if (hasPoppler) {
      const [listed, ...maps] = poppler('pdftotext', list, '-layout').split('The beds to lift from in ')
      expect(listed).toMatch(/O17 south edge +Hazel, layered, 40–60 cm +sold to Hedge planters +3/)
      expect(maps.map((text) => text.split('\n')[0]!.trim())).toEqual(['Orehova loka', 'Ob strugi'])
      // Each bed to lift from is named on its map and where it is told what it blocks; the bed that only blocks, there alone.
      const text = poppler('pdftotext', list)
      const named = (bed: string) =>
        text.match(new RegExp(`\\b${bed}\\b(?!\\s+(?:north|south|east|west|middle))`, 'g'))?.length
      for (const bed of ['O17', 'O18', 'O19', 'O20', 'S15', 'S16', 'S17']) expect([bed, named(bed)]).toEqual([bed, 2])
      expect(named('S18')).toBe(1)
    }
    await button('Farm').click()
    await button('Take the notebook out').click()
    const csv = await (async () => {
      await page.getByLabel('Table', { exact: true }).selectOption('observations')
      return saved(() => page.getByRole('dialog').getByRole('button', { name: 'Save as CSV' }).click())
    })()
    const rows = parse(csv.toString('utf8'), { columns: true, bom: true, record_delimiter: '\r\n' }) as Record<
      string,
      string
    >[]
    expect(rows.at(-1)).toMatchObject({ kind: 'crack', severity: '3' })
    expect(await axeFinds(page)).toEqual([])
    await button('Lay out the book').click()
    await expect.poll(() => words(page.locator('.print-pages p'))).toMatch(/1 of 6\d/)
    const pdf = await saved(() => page.getByRole('dialog').getByRole('button', { name: 'Save as PDF' }).click())
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-')
  })
})
