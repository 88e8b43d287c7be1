import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { EMPHASIS } from '../../src/map/theme/theme.ts'
import { SHEETS } from '../../src/sheets/names.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import {
  axeFinds,
  figure,
  goToSheet,
  openDemo,
  PHONE_SIZE,
  planShown,
  showDay,
  smallTargets,
  viewOf,
  words,
} from './pageActs.ts'

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage({ painted: true })
  page = held.page
})
afterAll(() => held?.close())

describe('before the page has its program', () => {
  it('shows paper, the name and a bar, from a policy that lets nothing in from elsewhere', async () => {
    const answer = await fetch(held.site.url)
    const html = await answer.text()
    expect(html).toMatch(/<h1>Selion<\/h1>[\s\S]*<progress /)
    const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1] ?? ''
    const served = answer.headers.get('content-security-policy') ?? ''
    // A page can't name who may frame it (CSP 3, §3.3; M); all else is the same in both.
    expect(served.split('; ').filter((part) => !part.startsWith('frame-ancestors'))).toEqual(policy.split('; '))
    expect(policy).toMatch(/; style-src 'self' 'sha256-[\w+/]{43}=';/)
    expect(policy).not.toMatch(/unsafe-inline|unsafe-eval(?<!wasm-unsafe-eval)|https?:|\*/)
  })
})

describe('the demo farm', () => {
  beforeAll(() => openDemo(page))
  beforeEach(() => goToSheet(page, 'ground'))

  it('is marked as invented, and opens on a day with something to see', async () => {
    expect(await words(page.locator('.rail-name'))).toMatch(/invented/i)
    expect(await words(page.locator('.title-block'))).toMatch(/invented/i)
    expect(await words(figure(page))).toMatch(/^[\d,.]+ m²$/)
    const bars = await page.locator('.strip-bar').evaluateAll((all) => all.map((bar) => bar.clientHeight))
    expect(Math.max(...bars)).toBeGreaterThan(20)
  })

  it('draws a scale bar that is true where the map is looked at', async () => {
    // Web Mercator at 512-pixel tiles: cos(lat) × 2π × 6,378,137 m / (512 × 2^zoom) a pixel (EPSG:3857; M).
    await expect.poll(() => page.url()).toMatch(/#ground\/[\d-]+\/[\d.]+,[\d.]+,[\d.]+$/)
    const { lat, zoom } = viewOf(page)
    const metresAPixel = (Math.cos((lat * Math.PI) / 180) * 2 * Math.PI * 6_378_137) / (512 * 2 ** zoom)
    const bar = page.locator('.scale-bar')
    const toldM = Number((await bar.getAttribute('aria-label'))!.match(/([\d,]+) m$/)![1]!.replace(',', ''))
    // Its strokes are left out, any shrinking of the drawing is not.
    const widthPx = await bar
      .locator('rect.scale-open')
      .evaluate((rect: SVGRectElement) => rect.width.baseVal.value * rect.getScreenCTM()!.a)
    // The address tells the zoom to a hundredth: 0.35 % of the scale.
    expect(Math.abs((widthPx * metresAPixel) / toldM - 1)).toBeLessThan(0.004)
  })

  it('has nothing on any sheet that axe finds fault with, by day or by night', async () => {
    for (const [light, rules, next] of [
      ['day', undefined, 'Night'],
      // Only colours differ.
      ['night', ['color-contrast'], 'Day'],
    ] as const) {
      for (const sheet of SHEETS) {
        await goToSheet(page, sheet)
        if (sheet === 'yield') await page.getByRole('heading', { name: 'Bed by bed' }).waitFor()
        expect([light, sheet, await axeFinds(page, rules)]).toEqual([light, sheet, []])
        const legend = page.locator('.map-pane .legend')
        const tells = async (words: string) => (await legend.getByText(words).count()) > 0
        // The legend tells of what this sheet's map shows, and of nothing else.
        expect([sheet, await tells('something seen'), await tells('dressed within')]).toEqual([
          sheet,
          EMPHASIS[sheet].observations,
          EMPHASIS[sheet].dressings,
        ])
      }
      await page.getByRole('button', { name: next, exact: true }).click()
    }
  })

  it('opens the card of what is tapped in a table, with where each figure comes from, and axe finds nothing', async () => {
    await page.getByRole('button', { name: 'O4', exact: true }).click()
    const card = page.getByRole('article', { name: 'O4' })
    await card.getByText('from').first().click()
    expect(await words(card.locator('.from-words').first())).not.toBe('')
    expect(await axeFinds(page)).toEqual([])
    await card.getByRole('button', { name: 'Close' }).click()
    await card.waitFor({ state: 'detached' })
  })

  it('moves through the season by keys, the day told in the address and taken from it', async () => {
    const slider = page.getByRole('slider', { name: 'Day shown' })
    const before = new URL(page.url()).hash.split('/')[1]!
    await slider.focus()
    await slider.press('PageUp')
    await slider.press('ArrowLeft')
    const after = new Date(Date.parse(before) + 6 * 86_400_000).toISOString().slice(0, 10)
    await expect.poll(() => new URL(page.url()).hash.split('/')[1]).toBe(after)
    expect(await page.locator('.title-block time').getAttribute('datetime')).toBe(after)
    await showDay(page, '2025-02-01')
    expect(await page.locator('.title-block time').getAttribute('datetime')).toBe('2025-02-01')
    await page.getByText('2026', { exact: true }).click()
    await expect.poll(() => new URL(page.url()).hash.split('/')[1]).toBe('2026-02-01')
  })

  it('goes from sheet to sheet and back by the browser’s Back, and is at the same place after a reload', async () => {
    await goToSheet(page, 'yield')
    await goToSheet(page, 'stock')
    await page.goBack()
    await page.getByRole('heading', { level: 1, name: 'Yield' }).waitFor()
    await page.goBack()
    await page.getByRole('heading', { level: 1, name: 'Ground' }).waitFor()
    await goToSheet(page, 'supports')
    await page.getByRole('button', { name: 'Nearer' }).click()
    await page.waitForTimeout(1000)
    const address = page.url()
    await page.reload()
    await planShown(page)
    await page.getByRole('heading', { level: 1, name: 'Supports' }).waitFor()
    await page.waitForTimeout(500)
    expect(page.url()).toBe(address)
  })

  it('tells climbing row without a support, field by field, adding up to the large figure', async () => {
    await showDay(page, '2026-08-09')
    await goToSheet(page, 'supports')
    await planShown(page)
    await expect.poll(() => words(figure(page))).not.toBe('0 m')
    const rows = await page
      .locator('section[aria-label="Supports by field"] tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].slice(1).map((cell) => Number(cell.textContent))))
    const sum = (n: number) => rows.reduce((total, row) => total + row[n]!, 0)
    const [, CLIMBING, HELD, UNHELD] = [0, 1, 2, 3] as const
    const told = Number((await words(figure(page))).replace(/ m$/, ''))
    expect(Math.abs(sum(UNHELD) - told)).toBeLessThanOrEqual(rows.length / 2)
    for (const row of rows) expect(Math.abs(row[HELD]! + row[UNHELD]! - row[CLIMBING]!)).toBeLessThanOrEqual(1)
  })

  it('shows yield by index and density with its value under the pointer, and outlines the low-yield corner', async () => {
    await goToSheet(page, 'yield')
    await page.locator('.zone-head').first().click()
    await page.getByText('What lies near').waitFor()
    expect(await words(page.locator('.near li').first())).toMatch(/walnut/i)
    await page.waitForTimeout(1500)
    const box = (await page.locator('.maplibregl-canvas').boundingBox())!
    const under = async () => {
      for (let y = 0.3; y < 0.7; y += 0.02) {
        await page.mouse.move(box.x + box.width / 2, box.y + box.height * y)
        await page.waitForTimeout(60)
        const note = await page.locator('.hover-note').allInnerTexts()
        if (note[0]?.includes('index')) return note[0]
      }
      return ''
    }
    expect(await under()).toMatch(/index \d\.\d\d[\s\S]*kg\/m²[\s\S]*kg on [\d.]+ m²/)
    await page.getByText('Density', { exact: true }).click()
    expect(await words(page.locator('.legend'))).toMatch(/Yield density, 2026[\s\S]*0[\s\S]*kg\/m²/)
    await page.getByText('Hot and cold', { exact: true }).click()
    expect(await words(page.locator('.legend'))).toMatch(/cold[\s\S]*as chance has it[\s\S]*hot/)
  })

  it('shows yield of one family over all seasons, smoothed anew, and between places with its standard error', async () => {
    await goToSheet(page, 'yield')
    await page.getByText('Index', { exact: true }).click()
    const legend = () => words(page.locator('.legend'))
    const all = await words(figure(page))
    await page.getByLabel('Of', { exact: true }).selectOption({ label: 'Solanaceae' })
    await expect.poll(legend).toMatch(/Yield index, 2026, Solanaceae/)
    const family = await words(figure(page))
    expect(family).not.toBe(all)
    await page.getByLabel('In', { exact: true }).selectOption('all')
    await expect.poll(legend).toMatch(/Yield index, 2024–2026, Solanaceae/)
    expect(await words(page.locator('.figure').first())).toMatch(
      /of Solanaceae picked in 2024–2026[\s\S]*a season over/,
    )
    await page.getByLabel('Of', { exact: true }).selectOption('null')
    await expect.poll(legend).toMatch(/Yield index, 2024–2026$/m)

    await page.getByLabel('Smooth').fill('3')
    await expect.poll(() => words(page.locator('.slide-value'))).toBe('3.00 m')
    await page.getByText('Between', { exact: true }).click()
    await expect
      .poll(legend, { timeout: 60_000 })
      .toMatch(/Index between places, by kriging, 2024–2026[\s\S]*half of par[\s\S]*missed by 0\.\d\d/)
    await page.getByLabel('What is shown of it').selectOption('error')
    await expect.poll(legend).toMatch(/Standard error of the index/)
    expect(await axeFinds(page)).toEqual([])
    await page.getByLabel('How it is told between places').selectOption('inverse distance')
    await expect.poll(legend, { timeout: 60_000 }).toMatch(/Index between places, by inverse distance/)
    await expect.poll(legend, { timeout: 60_000 }).toMatch(/missed by/)

    // It is stopped as soon as it can be: before it comes, as its button is there while it is reckoned.
    const stopped = page.evaluate(
      () =>
        new Promise<void>((done) => {
          const seen = new MutationObserver(() => {
            const stop = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === 'Stop')
            if (!stop) return
            seen.disconnect()
            stop.click()
            done()
          })
          seen.observe(document.body, { childList: true, subtree: true })
        }),
    )
    await page.getByLabel('How it is told between places').selectOption('kriging')
    await stopped
    const again = page.getByRole('button', { name: 'Reckon it from place to place' })
    await again.waitFor()
    expect(await legend()).not.toMatch(/missed by/)
    await again.click()
    await expect.poll(legend, { timeout: 60_000 }).toMatch(/by kriging[\s\S]*missed by/)
    await page.getByText('Index', { exact: true }).click()
    await page.getByLabel('In', { exact: true }).selectOption('one')
    await expect.poll(() => words(figure(page))).toBe(all)
  })

  it('tells season against season, what was set against what, what lies near and what to look at', async () => {
    await goToSheet(page, 'yield')
    const told = () => words(page.locator('.table-pane'))
    const part = (name: string) => page.locator('.supports-more').getByText(name, { exact: true }).click()
    await expect.poll(told).toMatch(/short of par, what \d+ m of row would give/)
    const zone = page.locator('.zone-head').first()
    if ((await zone.getAttribute('aria-expanded')) === 'false') await zone.click()
    await expect.poll(told).toMatch(/against all others[\s\S]*direct sun lost to trees and supports: \d+ % here, \d+ %/)
    await part('seasons')
    await expect.poll(told).toMatch(/What 2026 is to give[\s\S]*What each bed gave, season by season/)
    await part('compared')
    await expect.poll(told).toMatch(/Set against each other[\s\S]*(too few beds|What gave more, 2026)/)
    const asWideAsItsPane = () =>
      page
        .locator('.table-pane')
        .evaluate((pane) =>
          [pane, ...pane.querySelectorAll('table')].every(
            (one) => pane.clientWidth > 300 && one.scrollWidth <= pane.clientWidth,
          ),
        )
    expect(await asWideAsItsPane()).toBe(true)
    await page.setViewportSize(PHONE_SIZE)
    await expect.poll(asWideAsItsPane).toBe(true)
    await page.setViewportSize({ width: 1440, height: 900 })
    await part('near')
    await expect.poll(told).toMatch(/What yield goes with[\s\S]*walnut/i)
    await expect.poll(() => page.locator('.partial:visible svg circle').count()).toBeGreaterThan(20)
    await expect.poll(told).toMatch(/In the drawings these are looked at together, .*walnut, shade/)
    await part('look')
    await expect.poll(told).toMatch(/To look at in the field[\s\S]*zone 1/i)
    await page.getByRole('button', { name: 'Yes: note “wet or packed ground”' }).first().click()
    await expect.poll(told).toMatch(/Noted “wet or packed ground”, Aug/)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Yes: note “wet or packed ground”' }).first().waitFor()
    expect(await axeFinds(page)).toEqual([])
    await part('zones')
    await page.getByRole('heading', { name: 'Bed by bed' }).waitFor()
  })

  it('hands itself over as an archive', async () => {
    await page.getByRole('button', { name: 'Farm', exact: true }).click()
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as an archive' }).click(),
    ])
    expect(download.suggestedFilename()).toMatch(/\.zip$/)
  })

  describe('on a phone', () => {
    beforeEach(() => page.setViewportSize(PHONE_SIZE))
    afterEach(() => page.setViewportSize({ width: 1440, height: 900 }))

    it('has targets of 44 pixels, a table that takes the screen, and nothing that axe finds', async () => {
      const shown = page.getByRole('navigation', { name: 'Shown' })
      for (const pane of ['Map', 'Table', 'Card']) {
        await shown.getByRole('button', { name: pane }).click()
        expect([pane, await smallTargets(page)]).toEqual([pane, []])
        expect([pane, await axeFinds(page)]).toEqual([pane, []])
        const across = await page.evaluate(() => document.documentElement.scrollWidth)
        expect(across).toBe(PHONE_SIZE.width)
      }
    })

    it('has targets of 44 pixels in the table and on the card of every sheet', async () => {
      const shown = page.getByRole('navigation', { name: 'Shown' })
      const table = shown.getByRole('button', { name: 'Table' })
      await page.getByRole('combobox', { name: 'Sheet' }).selectOption('ground')
      await table.click()
      await page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'O12', exact: true }).click()
      await table.click()
      await page.locator('.table-pane').evaluate((one) => one.scrollTo(0, 0))
      for (const sheet of SHEETS) {
        await page.getByRole('combobox', { name: 'Sheet' }).selectOption(sheet)
        await table.click()
        await page.locator('.table-pane[aria-busy="false"]').waitFor({ state: 'attached' })
        await page.locator('.table-pane :is(summary, button):visible').first().waitFor()
        expect([sheet, await smallTargets(page)]).toEqual([sheet, []])
        // Each is seen from its top, however far the one before was scrolled.
        const pane = page.locator('.table-pane')
        expect([sheet, await pane.evaluate((one) => one.scrollTop)]).toEqual([sheet, 0])
        await pane.evaluate((one) => one.scrollTo(0, one.scrollHeight))
        await shown.getByRole('button').last().click()
        await page.locator('.card-pane button:visible').first().waitFor()
        expect([sheet, await smallTargets(page)]).toEqual([sheet, []])
      }
      await page.getByRole('combobox', { name: 'Sheet' }).selectOption('supports')
    })
  })
})
