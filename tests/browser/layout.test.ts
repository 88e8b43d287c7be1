import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import {
  axeFinds,
  clickMap,
  DESK_SIZE,
  mapFills,
  mapHears,
  PHONE_SIZE,
  startFarm,
  takeTool,
  tap,
  touchMap,
  words,
} from './pageActs.ts'

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  await startFarm(page, 'Sunny Bank', '-42.9, 147.3')
  await takeTool(page, 'Field')
  for (const [x, y] of [
    [250, 100],
    [650, 100],
    [650, 300],
    [250, 300],
    [250, 100],
  ] as const)
    await clickMap(page, x, y)
  await page.getByRole('form', { name: 'New field' }).waitFor()
  await page.keyboard.press('Enter')
  await page.getByRole('article', { name: 'Field 1' }).waitFor()
})
afterAll(() => held?.close())

const beds = () => page.getByRole('form', { name: 'Beds in Field 1' })
const figures = () => words(page.locator('.laid-figures'))
const firstFigure = async () => Number((await words(page.locator('.laid-value').first())).replace(/\D/g, ''))
const undone = () => words(page.locator('.steps .step-name').first())
const fieldLine = () => words(page.locator('section[aria-label="Fields"] tbody'))
/** Takes the bed south of the map's middle in or out. A map that was just turned to may not know its beds yet. */
const takeOnMap = async (press: (page: Page, x: number, y: number) => Promise<void>, rowsThen: number) => {
  await mapFills(page)
  const { width, height } = (await page.locator('.maplibregl-canvas').boundingBox())!
  for (let n = 0; n < 4 && (await firstFigure()) !== rowsThen; n++) {
    await press(page, width / 2, height / 2 + 14)
    for (let waits = 0; waits < 20 && (await firstFigure()) !== rowsThen; waits++) await page.waitForTimeout(150)
  }
  expect(await firstFigure()).toBe(rowsThen)
}
const openBeds = async () => {
  await page.getByRole('button', { name: 'Lay out beds' }).click()
  await beds().waitFor()
  await expect.poll(firstFigure).toBeGreaterThan(0)
}

describe('laying out', () => {
  it('fills a field with beds, previewed and kept as one step that is taken back as one', async () => {
    await openBeds()
    expect(await axeFinds(page)).toEqual([])
    await beds().getByLabel('Bed, m', { exact: true }).fill('2')
    await beds().getByLabel('Path, m', { exact: true }).fill('1')
    const wide = await firstFigure()
    await beds().getByLabel('Path, m', { exact: true }).fill('x')
    expect(await words(beds().getByRole('alert'))).toMatch(/“x” is not a number/)
    expect(await beds().getByRole('button', { name: /^Keep/ }).isDisabled()).toBe(true)
    await beds().getByLabel('Path, m', { exact: true }).fill('2')
    await expect.poll(firstFigure).toBeLessThan(wide)
    const count = await firstFigure()
    // By hand: (400 px × 200 px of ground) at beds of 2 m and paths of 2 m is half of it, less the headland.
    const share = Number(/(\d+)%/.exec(await figures())![1])
    expect(share).toBeGreaterThan(44)
    expect(share).toBeLessThan(52)
    const told = await figures()
    await beds()
      .getByRole('button', { name: `Keep ${count} beds` })
      .click()
    await page.getByRole('article', { name: 'Field 1' }).waitFor()
    expect(await undone()).toBe(`Lay out ${count} beds in Field 1`)
    // What was previewed is what the database measures.
    await expect.poll(fieldLine).toMatch(new RegExp(`\\b${count}\\b[\\s\\S]*${share}%`))
    expect(told).toMatch(new RegExp(`${share}%`))
    await page.keyboard.press('Control+z')
    await expect.poll(fieldLine).toMatch(/\b0\b[\s\S]*0%/)
    await page.keyboard.press('Control+Shift+z')
    await expect.poll(fieldLine).toMatch(new RegExp(`\\b${count}\\b`))
  })

  it('finds no room where beds lie already, and tells names that are taken', async () => {
    await page.getByRole('button', { name: 'Lay out beds' }).click()
    await beds().waitFor()
    await expect.poll(() => words(beds())).toMatch(/No bed fits/)
    await beds().getByLabel('Bed, m', { exact: true }).fill('0.8')
    await page.getByText('Lengths, and what to keep clear of').click()
    await beds().getByLabel('Other beds, m').fill('0.3')
    await expect.poll(firstFigure).toBeGreaterThan(3)
    await beds().getByLabel('First number').fill('2')
    await expect.poll(() => words(beds())).toMatch(/F2, F3 and \d+ more are beds’ names/)
    await beds()
      .getByRole('button', { name: /^Count from/ })
      .click()
    await expect.poll(() => words(beds())).not.toMatch(/beds’ names/)
    await page.getByRole('button', { name: 'Leave it' }).click()
    await beds().waitFor({ state: 'detached' })
  })

  it('lays them along a line put down by mouse, by the keyboard, and by finger on a phone', async () => {
    await page.keyboard.press('Control+z')
    await openBeds()
    await page.getByText('A line', { exact: true }).click()
    await page.getByRole('button', { name: 'Put a line on the map' }).click()
    await mapHears(page)
    await clickMap(page, 300, 150)
    await clickMap(page, 500, 250)
    // By hand: 200 px east and 100 px south, atan2(200, −100) from north.
    await expect.poll(() => words(beds())).toMatch(/Along your line, at 11[67]\.\d°/)
    await page.getByRole('button', { name: 'Another line' }).press('Enter')
    await mapHears(page)
    await page.locator('.maplibregl-canvas').focus()
    await page.keyboard.press('Enter')
    await page.keyboard.press('Enter')
    for (let n = 0; n < 5; n += 1) await page.keyboard.press('ArrowDown')
    await page.keyboard.press('Enter')
    await expect.poll(() => words(beds())).toMatch(/Along your line, at (0\.0|180\.0)°/)
    await page.setViewportSize(PHONE_SIZE)
    await tap(page.getByRole('button', { name: 'Another line' }))
    await mapHears(page)
    await touchMap(page, 80, 90)
    await touchMap(page, 260, 90)
    await expect.poll(() => words(beds())).toMatch(/Along your line, at (90\.0|270\.0)°/)
    await tap(page.getByRole('button', { name: 'Leave it' }))
    await page.setViewportSize(DESK_SIZE)
  })

  it('lays rows in many beds at once, taken in and left out by finger on a phone, by mouse and by keys', async () => {
    await openBeds()
    await beds().getByLabel('Bed, m', { exact: true }).fill('3')
    await beds().getByLabel('Path, m', { exact: true }).fill('3')
    await page.getByText('By number').first().click()
    await beds().getByLabel('Beds', { exact: true }).fill('4')
    await expect.poll(firstFigure).toBe(4)
    await page.getByRole('button', { name: 'Keep 4 beds' }).press('Enter')
    await page.getByRole('article', { name: 'Field 1' }).waitFor()
    await page.setViewportSize(PHONE_SIZE)
    await tap(page.getByRole('button', { name: 'Lay rows' }))
    const rows = page.getByRole('form', { name: 'Rows in beds' })
    await rows.waitFor()
    await rows.getByLabel('Rows in a bed').fill('3')
    await expect.poll(firstFigure).toBe(12)
    expect(await axeFinds(page)).toEqual([])
    await tap(page.getByRole('button', { name: 'All', exact: true }))
    await takeOnMap(touchMap, 9)
    await page.setViewportSize(DESK_SIZE)
    for (const count of [12, 9]) await takeOnMap(clickMap, count)
    await rows.locator('.bed-ticks input:checked').first().press('Space')
    await expect.poll(firstFigure).toBe(6)
    await rows.locator('.bed-ticks input:not(:checked)').first().press('Space')
    await expect.poll(firstFigure).toBe(9)
    await page.setViewportSize(PHONE_SIZE)
    await tap(page.getByRole('button', { name: 'Keep 9 rows' }))
    await page.setViewportSize(DESK_SIZE)
    await page.getByRole('article', { name: /^F\d/ }).waitFor()
    expect(await undone()).toBe('Lay 9 rows in 3 beds')
    // Beds with rows are left out unless they are asked for.
    await page.getByRole('button', { name: 'Lay rows' }).click()
    await expect.poll(firstFigure).toBe(0)
    await page.getByLabel('Leave out the bed that has rows').uncheck()
    await expect.poll(firstFigure).toBe(3)
    await page.keyboard.press('Escape')
    await page.locator('.laying').waitFor({ state: 'detached' })
  })
})
