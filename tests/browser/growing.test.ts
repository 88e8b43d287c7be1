import type { CDPSession, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { growFarm, lonLat, ROW_NORTH_M } from './growing/growFarm.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, goToSheet, PHONE_SIZE, planShown, viewOf, words } from './pageActs.ts'

let held: HeldPage
let page: Page
let touch: CDPSession

beforeAll(async () => {
  held = await holdPage({ at: '#growing/2026-05-10' })
  page = held.page
  const archive = { name: 'three-rows.zip', mimeType: 'application/zip', buffer: growFarm() }
  await page.locator('.way input[accept*="zip"]').setInputFiles(archive)
  await planShown(page)
  await page.waitForURL(/#growing\/2026-05-10\/[\d.-]+,[\d.]+,[\d.]+$/)
  await page.locator('.first-steps').waitFor()
  touch = await page.context().newCDPSession(page)
})
afterAll(() => held?.close())

/** Settles when the address, which follows the map, has not changed for a while. */
async function mapStill(): Promise<void> {
  let before = ''
  while (before !== page.url()) {
    before = page.url()
    await page.waitForTimeout(600)
  }
}

type Side = keyof typeof ROW_NORTH_M

/** Where a place of the first bed is on the screen: Web Mercator at 512-pixel tiles (EPSG:3857; M). */
async function pixelAt(alongM: number, side: Side): Promise<[x: number, y: number]> {
  const { lon, lat, zoom } = viewOf(page)
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  const world = 512 * 2 ** zoom
  const mercator = ([lon, lat]: readonly [number, number]) => [
    (lon / 360 + 0.5) * world,
    (0.5 - Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360)) / (2 * Math.PI)) * world,
  ]
  const [[x, y], [cx, cy]] = [mercator(lonLat(alongM, ROW_NORTH_M[side])), mercator([lon, lat])]
  return [box.x + box.width / 2 + x! - cx!, box.y + box.height / 2 + y! - cy!]
}

const form = (): Locator => page.locator('form.setting-out')
const entry = (label: string) => form().getByLabel(label, { exact: true })
const found = () => words(form().locator('.found'))
const card = (name: string) => page.getByRole('article', { name })
const lastStep = () => words(page.locator('.steps .step-name').first())

async function click(at: readonly [number, number]): Promise<void> {
  await page.mouse.move(...at, { steps: 3 })
  await page.mouse.down()
  await page.mouse.up()
}

async function dragByMouse(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  await page.mouse.move(...from, { steps: 3 })
  await page.mouse.down()
  await page.mouse.move(...to, { steps: 6 })
  await page.mouse.up()
}

async function byFinger(...path: readonly (readonly [number, number])[]): Promise<void> {
  const points = ([x, y]: readonly [number, number]) => [{ x, y }]
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(path[0]!) })
  for (const at of path.slice(1))
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(at) })
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
}

describe('setting out', () => {
  it('by mouse: a row is tapped, its end dragged, and what to look at again is told before it is kept', async () => {
    await page.getByRole('button', { name: 'Set out', exact: true }).click()
    await form().waitFor()
    await mapStill()
    await click(await pixelAt(10, 'middle'))
    await entry('To, m').waitFor()
    expect(await entry('Row').inputValue()).toBe('b1 middle')
    expect(await entry('To, m').inputValue()).toBe('30')
    await dragByMouse(await pixelAt(30, 'middle'), await pixelAt(14, 'middle'))
    // A pixel is some 4 cm here, and an end is held to 5 cm.
    await expect.poll(async () => Math.abs(Number(await entry('To, m').inputValue()) - 14)).toBeLessThan(0.25)
    await entry('To, m').fill('15')
    await entry('Variety').selectOption('v1')
    // 15 m at 50 cm: 31 plants, one at either end. By hand.
    expect(await entry('Spacing, cm').inputValue()).toBe('50')
    expect(await entry('Plants').inputValue()).toBe('31')
    await entry('Plants').fill('61')
    expect(await entry('Spacing, cm').inputValue()).toBe('25')
    await expect.poll(found).toMatch(/Too dense/)
    // Tomatoes stood here the year before; 15 m of row begin 25 m from a walnut that reaches 18.29 m: not flagged.
    expect(await found()).toMatch(/Family back too soon.*2025.*4 years/s)
    expect(await found()).toMatch(/Climbs without a support/)
    expect(await found()).not.toMatch(/walnut/i)
    expect(await axeFinds(page)).toEqual([])
    await entry('To, m').fill('28')
    await expect.poll(found).toMatch(/Within a walnut’s reach.*12\.00 m from the trunk of Old walnut/s)
    await entry('To, m').fill('15')
    await entry('Plants').fill('31')
    await form().getByRole('button', { name: 'Keep it all the same' }).click()
    await card('Tomato, River Red').waitFor()
    await expect.poll(() => words(card('Tomato, River Red'))).toMatch(/To look at again[\s\S]*Family back too soon/)
    await expect.poll(() => words(page.locator('.table-pane'))).toMatch(/15 m[\s\S]*Family back too soon/)
    expect(await lastStep()).toBe('Set out Tomato, River Red')
  })

  it('by keyboard alone: bed, variety and stretch, the end moved by arrow keys on the map', async () => {
    await page.getByRole('button', { name: 'Set something out' }).focus()
    await page.keyboard.press('Enter')
    await form().waitFor()
    await page.keyboard.type('B1')
    await entry('Variety').waitFor()
    expect(await entry('Row').inputValue()).toBe('b1 north edge')
    await entry('Variety').focus()
    await page.keyboard.type('Lett')
    expect(await entry('Variety').inputValue()).toBe('v2')
    await page.locator('.maplibregl-canvas').focus()
    await page.keyboard.press('Tab')
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Shift+ArrowLeft')
    expect([await entry('From, m').inputValue(), await entry('To, m').inputValue()]).toEqual(['0.3', '29'])
    await entry('Plants').focus()
    await page.keyboard.press('Enter')
    await card('Lettuce, Butterhead').waitFor()
  })

  it('by finger: one row, another beside it and one after it, kept as one step', async () => {
    await page.getByRole('button', { name: 'Set out', exact: true }).click()
    await form().waitFor()
    await mapStill()
    await byFinger(await pixelAt(20, 'south edge'))
    await entry('To, m').waitFor()
    expect(await entry('Row').inputValue()).toBe('b1 south edge')
    const end = await pixelAt(30, 'south edge')
    await byFinger(end, [end[0] - 30, end[1]], await pixelAt(20, 'south edge'), await pixelAt(10, 'south edge'))
    await expect.poll(async () => Math.abs(Number(await entry('To, m').inputValue()) - 10)).toBeLessThan(0.3)
    await entry('To, m').fill('10')
    await entry('Variety').selectOption('v3')
    await form().getByRole('button', { name: 'Another after it' }).click()
    expect(await words(form().getByRole('alert').last())).toMatch(/when this one is cleared/)
    await entry('Cleared on').fill('2026-07-20')
    await form().getByRole('button', { name: 'Another after it' }).click()
    expect([await entry('Set out on').inputValue(), await entry('To, m').inputValue()]).toEqual(['2026-07-20', '10'])
    await entry('Variety').selectOption('v2')
    expect(await words(form().locator('.stood, .hint').last())).toMatch(/before/)
    await entry('Bed').selectOption({ label: 'B1' })
    await form().getByRole('button', { name: 'Another beside it' }).click()
    await entry('Variety').selectOption('another')
    await entry('Crop').selectOption('catalogue:leek')
    await entry('Name of the variety').fill('Long Blue')
    expect(await entry('Spacing, cm').inputValue()).toBe('12')
    await form().getByRole('button', { name: /^Keep/ }).click()
    await card('Bush bean, Fine Green').waitFor()
    expect(await lastStep()).toBe('Set out 3 plantings')
  })

  it('tells what was typed wrongly where it was, and keeps it', async () => {
    await page.getByRole('button', { name: 'Set something out' }).click()
    await form().getByRole('button', { name: 'Keep' }).click()
    expect(await words(form().getByRole('alert'))).toMatch(/Choose a bed/)
    await entry('Bed').selectOption({ label: 'B2' })
    await entry('To, m').fill('thirty')
    expect(await words(form())).toMatch(/thirty.*not a number/)
    await entry('To, m').fill('31')
    await form().getByRole('button', { name: 'Keep' }).click()
    expect(await words(form())).toMatch(/Choose a variety[\s\S]*The row ends at 30/)
    await entry('To, m').fill('30')
    await entry('Variety').selectOption('v2')
    await expect
      .poll(found)
      .toMatch(
        /Raw manure too near the harvest.*cattle manure on Apr 20, 2026: not to be harvested before Aug 18, 2026, 120 days/s,
      )
    await page.keyboard.press('Escape')
    await expect.poll(() => form().count()).toBe(0)
  })
})

describe('what is set out', () => {
  it('is cleared on a day, moved to another row, and followed in its stretch', async () => {
    await page.getByRole('row').getByRole('button', { name: 'River Red' }).click()
    await card('Tomato, River Red').getByRole('button', { name: 'Clear', exact: true }).click()
    await page.getByRole('dialog').getByLabel('Cleared on').fill('2026-05-01')
    await page.getByRole('button', { name: 'Keep the day' }).click()
    await expect.poll(() => words(page.getByRole('dialog').getByRole('alert'))).toMatch(/before it was set out/)
    await page.getByRole('dialog').getByLabel('Cleared on').fill('2026-10-01')
    await page.getByRole('button', { name: 'Keep the day' }).click()
    await expect.poll(() => words(card('Tomato, River Red'))).toMatch(/cleared\s+Oct 1, 2026/)

    await card('Tomato, River Red').getByRole('button', { name: 'Move or change' }).click()
    await entry('Bed').waitFor()
    await entry('Bed').selectOption({ label: 'B2' })
    await expect.poll(() => entry('Row').inputValue()).toBe('b2 north edge')
    await entry('Row').selectOption('b2 middle')
    await entry('To, m').fill('12')
    await form().getByRole('button', { name: /^Keep/ }).click()
    await expect.poll(() => words(card('Tomato, River Red'))).toMatch(/B2[\s\S]*12\.00 m/)
    expect(await lastStep()).toBe('Move Tomato, River Red')
    await page.keyboard.press('Control+z')
    await expect.poll(() => words(card('Tomato, River Red'))).toMatch(/B1[\s\S]*15\.00 m/)

    await card('Tomato, River Red').getByRole('button', { name: 'Set out after it' }).click()
    await entry('Set out on').waitFor()
    expect([await entry('Set out on').inputValue(), await entry('To, m').inputValue()]).toEqual(['2026-10-01', '15'])
    await form().getByRole('button', { name: 'Give up' }).click()
  })

  it('makes the history of its bed, drawn and listed', async () => {
    await goToSheet(page, 'ground')
    await page.getByRole('row').getByRole('button', { name: 'B1', exact: true }).click()
    const strip = page.getByRole('img', { name: /What stood where in B1/ })
    await strip.waitFor()
    expect(await strip.locator('.strip-block').count()).toBe(6)
    expect(await words(page.locator('.strip-families'))).toMatch(/Solanaceae[\s\S]*Asteraceae/)
    await page.getByText('The same as a list').click()
    expect(await words(page.locator('.bed-strip .stood'))).toMatch(
      /middle: Tomato, River Red \(Solanaceae\), May 12, 2025 to Oct 1, 2025/,
    )
    expect(await axeFinds(page)).toEqual([])
    await goToSheet(page, 'growing')
  })

  it('is copied to the next year as one step, with what clashes told before, and taken back', async () => {
    await page.getByText('Next year', { exact: true }).click()
    const next = page.getByRole('region', { name: 'Next year' })
    await expect.poll(() => words(next)).toMatch(/5 plantings, \d with something to look at/)
    await expect
      .poll(() => words(next))
      .toMatch(/Tomato, River Red, middle, May 10[\s\S]*Family back too soon[\s\S]*in 2026, a year before/)
    await next.getByText('Next bed').click()
    await expect.poll(() => words(next)).toMatch(/B2\s+Lettuce|B2[\s\S]*Tomato, River Red, middle/)
    expect(await axeFinds(page)).toEqual([])
    await expect.poll(() => next.getByRole('button', { name: 'Keep all of it as one step' }).isEnabled()).toBe(true)
    await next.getByRole('button', { name: 'Keep all of it as one step' }).click()
    await expect.poll(lastStep).toBe('Copy the plan of 2026 to 2027')
    await expect.poll(() => page.url()).toMatch(/2027-05-10/)
    await page.getByText('Standing', { exact: true }).click()
    await expect.poll(() => words(page.locator('.table-pane'))).toMatch(/B2[\s\S]*River Red/)
    await page.keyboard.press('Control+z')
    await page.getByRole('region', { name: 'Season strip' }).getByText('2026', { exact: true }).click()
    await expect.poll(() => words(page.locator('.table-pane'))).toMatch(/B1[\s\S]*River Red/)
  })

  it('is carried on by a rotation of the whole farm, kept as one step, and taken back', async () => {
    await page.getByText('Next year', { exact: true }).click()
    const next = page.getByRole('region', { name: 'Next year' })
    await next.getByText('Rotation', { exact: true }).click()
    await next.getByLabel('Years ahead').fill('soon')
    await next.getByRole('button', { name: 'Reckon the rotation' }).click()
    await expect.poll(() => words(next)).toMatch(/A whole number of years is needed/)
    await next.getByLabel('Years ahead').fill('3')
    await next.getByText('What weighs how much').click()
    await next.getByLabel('Standing beneath a canopy').fill('much')
    await next.getByRole('button', { name: 'Reckon the rotation' }).click()
    await expect.poll(() => words(next)).toMatch(/A number is needed; 0 leaves it out/)
    await next.getByLabel('Standing beneath a canopy').fill('0')
    await next.getByRole('button', { name: 'Reckon the rotation' }).click()
    const table = next.getByRole('region', { name: 'What follows what' })
    await table.waitFor()
    // What stands in B1 this season goes to the other bed, as soon as what stood there lets it.
    await expect
      .poll(() => words(table))
      .toMatch(/bed\s+2026\s+2027\s+2028\s+2029\s+B1\s+A\s+rests\s+rests\s+rests\s+B2\s+rests\s+rests\s+A\s+rests/)
    const plan = next.getByRole('region', { name: 'Plantings of the rotation' })
    await expect.poll(() => words(plan)).toMatch(/find no bed/)
    await plan.getByText('to 2028').click()
    await expect.poll(() => words(plan)).toMatch(/\d plantings[\s\S]*B2, 2028[\s\S]*Tomato, River Red/)
    expect(await axeFinds(page)).toEqual([])
    const keep = plan.getByRole('button', { name: 'Keep all of it as one step' })
    await expect.poll(() => keep.isEnabled()).toBe(true)
    // The page goes on to the first season planned with the step itself: whoever goes back at once is not led there again.
    const goneBack = page.evaluate(
      () =>
        new Promise<void>((done) => {
          const step = document.querySelector('.steps .step-name')!
          const seen = new MutationObserver(() => {
            if (!step.textContent?.startsWith('Plan 2027')) return
            seen.disconnect()
            setTimeout(() => {
              const seasons = [...document.querySelectorAll<HTMLElement>('.seasons label')]
              seasons.find(({ textContent }) => textContent === '2026')!.click()
              done()
            })
          })
          seen.observe(step, { characterData: true, childList: true, subtree: true })
        }),
    )
    await keep.click()
    await goneBack
    expect(await lastStep()).toBe('Plan 2027–2028 by a rotation')
    await page.keyboard.press('Control+z')
    await page.getByText('Standing', { exact: true }).click()
    await expect.poll(() => words(page.locator('.table-pane'))).toMatch(/B1[\s\S]*River Red/)
  })
})

describe('crops', () => {
  it('are taken from the catalogue with their sources, changed, given varieties, and removed', async () => {
    await page.getByText('Crops', { exact: true }).click()
    const catalogue = page.getByRole('region', { name: 'Catalogue' })
    await catalogue.getByLabel('Crop or family').fill('aspar')
    await catalogue.locator('summary').click()
    expect(await words(catalogue)).toMatch(
      /near walnuts\s+sensitive \(listed\)\s+listed as sensitive: Morton Arboretum/,
    )
    expect(await axeFinds(page)).toEqual([])
    await catalogue.getByRole('button', { name: 'Take Asparagus' }).click()
    const own = page.getByRole('form', { name: 'Crop Asparagus' })
    await own.waitFor()
    expect(await own.getByLabel('Its source').nth(2).inputValue()).toMatch(/Morton Arboretum/)
    await page.getByLabel('A new variety').fill('Green Spear')
    await page.getByRole('button', { name: 'Add the variety' }).click()
    await page.getByLabel('Name of the variety Green Spear').waitFor()
    await own.getByLabel('Years that a planting stands').fill('ten')
    await own.getByRole('button', { name: 'Keep the changes' }).click()
    expect(await words(own.getByRole('alert'))).toMatch(/ten.*not a number/)
    await own.getByLabel('Years that a planting stands').fill('10')
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Remove Asparagus' }).click()
    await expect.poll(() => words(page.getByRole('dialog'))).toMatch(/1 variety/)
    await page.getByRole('dialog').getByRole('button', { name: 'Remove' }).click()
    await expect.poll(() => words(page.getByRole('region', { name: 'Crops of this farm' }))).not.toMatch(/Asparagus/)
  })
})

describe('on a phone', () => {
  it('has the form under the map, nothing that axe finds fault with, and targets of 44 px', async () => {
    await page.setViewportSize(PHONE_SIZE)
    await page.getByRole('button', { name: 'Map', exact: true }).click()
    await page.getByRole('button', { name: 'Set out', exact: true }).click()
    await entry('Bed').selectOption({ label: 'B1' })
    await entry('Variety').waitFor()
    await entry('Variety').selectOption('v1')
    await expect.poll(found).not.toBe('')
    expect(await axeFinds(page)).toEqual([])
    const small = await form()
      .locator('button, select, input')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.9).map((one) => one.outerHTML))
    expect(small).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    await form().getByRole('button', { name: 'Give up' }).click()
    await page.setViewportSize(DESK_SIZE)
  })
})
