import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import { DESK_SIZE, dragByFinger, mapFills, mapHears, openDemo, PHONE_SIZE, tap, touchMap, words } from './pageActs.ts'

/** What is done with things that stand, without a mouse: all by finger on a phone, then all by keys at a desk. */

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  await openDemo(page)
})
afterAll(() => held?.close())

const bedCount = async () =>
  Number(/in (\d+) beds/.exec((await page.locator('.figure-grounds').first().textContent()) ?? '')?.[1] ?? Number.NaN)
const inTable = (name: string) => page.locator('section[aria-label="Beds"]').getByRole('button', { name, exact: true })
const lineOf = async (name: string) =>
  (await page
    .locator('section[aria-label="Beds"] tr', {
      has: page.getByRole('button', { name, exact: true, includeHidden: true }),
    })
    .textContent()) ?? ''
const namesOfO3 = async () =>
  (await page.locator('section[aria-label="Beds"] button.in-row').allTextContents()).filter((name) =>
    name.startsWith('O3'),
  )
const card = (name: string) => page.getByRole('article', { name })
const form = (name: string | RegExp) => page.getByRole('form', { name })
/** The map's middle, once the map is as large as its pane. */
const middle = async () => {
  await mapFills(page)
  const box = (await page.locator('.maplibregl-canvas').boundingBox())!
  return [box.width / 2, box.height / 2] as const
}

/** Where the marks of an outline that is being reshaped are on the page. */
const marksOf = (what: string) =>
  page.locator(`svg.sketch .${what}`).evaluateAll((all) =>
    all.map((one) => {
      const { x, y, width, height } = one.getBoundingClientRect()
      return [x + width / 2, y + height / 2] as const
    }),
  )

/** How a person works the page without a mouse. */
interface Hand {
  readonly size: { readonly width: number; readonly height: number }
  press(what: Locator): Promise<void>
  /** Brings a pane to the front, where only one is shown. */
  pane(name: 'Table' | 'Card'): Promise<void>
  type(into: Locator, text: string): Promise<void>
  undo(): Promise<void>
  /** Puts corners down: one leg across, one on from its end. */
  measure(): Promise<void>
  /** Puts a line down across the bed in the map's middle, east of it. */
  cut(): Promise<void>
  /** Draws a new corner out of the outline that is being reshaped. */
  grow(): Promise<void>
  /** Means an edge so many pixels north of the map's middle. */
  edge(upPx: number): Promise<void>
}

const finger: Hand = {
  size: PHONE_SIZE,
  press: tap,
  pane: (name) => tap(page.getByRole('navigation', { name: 'Shown' }).getByRole('button', { name })),
  type: (into, text) => into.fill(text),
  undo: () => tap(page.getByRole('button', { name: /^Undo/ })),
  async measure() {
    for (const [x, y] of [
      [80, 60],
      [200, 140],
      [260, 60],
    ] as const)
      await touchMap(page, x, y)
  },
  async cut() {
    const [x, y] = await middle()
    await touchMap(page, x + 14, y - 40)
    await touchMap(page, x + 22, y + 40)
  },
  async grow() {
    const marks = await marksOf('middle')
    const [x, y] = marks.reduce((top, mark) => (mark[1] < top[1] ? mark : top))
    await dragByFinger(page, [x, y], [x, y - 24])
  },
  async edge(upPx) {
    const [x, y] = await middle()
    await touchMap(page, x, y - upPx)
  },
}

/** Keys pressed on the map, each so many times: arrows move a cross by ten pixels, Enter is a tap. */
async function onMap(...keys: readonly (readonly [key: string, times: number])[]): Promise<void> {
  await page.locator('.maplibregl-canvas').focus()
  for (const [key, times] of keys) for (let n = 0; n < times; n++) await page.keyboard.press(key)
}

const keys: Hand = {
  size: DESK_SIZE,
  async press(what) {
    // What is not ready yet can have the focus, and does nothing.
    await expect.poll(() => what.isEnabled()).toBe(true)
    await what.focus()
    await page.keyboard.press((await what.getAttribute('type')) === 'radio' ? 'Space' : 'Enter')
  },
  pane: async () => undefined,
  async type(into, text) {
    // As Tab leaves an entry: with all of it selected. A form that is just being opened may not have its keys yet.
    await expect
      .poll(async () => {
        await into.selectText()
        await page.keyboard.type(text)
        return into.inputValue()
      })
      .toBe(text)
  },
  undo: () => page.keyboard.press('Control+z'),
  measure: () => onMap(['Enter', 1], ['ArrowRight', 8], ['Enter', 1], ['ArrowDown', 8]),
  cut: () => onMap(['ArrowRight', 3], ['ArrowUp', 6], ['Enter', 1], ['ArrowDown', 12], ['Enter', 1]),
  async grow() {
    await page.locator('.maplibregl-canvas').focus()
    while ((await page.locator('svg.sketch .middle.chosen').count()) === 0) await page.keyboard.press('Tab')
    const [[, y]] = (await marksOf('middle.chosen')) as [readonly [number, number]]
    const [[, middleY]] = (await marksOf('area')) as [readonly [number, number]]
    await page.keyboard.press(y < middleY ? 'ArrowUp' : 'ArrowDown')
  },
  edge: () => onMap(['ArrowUp', 1], ['Enter', 1]),
}

describe.each([
  ['by finger, on a phone', finger],
  ['by keys alone, at a desk', keys],
])('%s', (_, hand) => {
  beforeAll(() => page.setViewportSize(hand.size))
  // What a test that failed left open would fail those after it too.
  beforeEach(async () => {
    for (const name of ['Give up', 'Leave', /^Close the selection/])
      for (const one of await page.getByRole('button', { name, exact: true }).all())
        if (await one.isVisible()) await one.click()
  })

  const button = (name: string) => page.getByRole('button', { name, exact: true })
  const open = async (name: string) => {
    await hand.pane('Table')
    await hand.press(inTable(name))
    await card(name).waitFor()
  }
  const more = async (deed: string) => {
    await hand.press(page.getByRole('article').getByRole('button', { name: 'More', exact: true }))
    await hand.press(page.getByRole('article').getByRole('button', { name: deed, exact: true }))
  }
  const undo = async (before: number) => {
    await hand.undo()
    await expect.poll(bedCount).toBe(before)
  }

  it('measures along a line, and keeps nothing', async () => {
    await hand.press(button('Measure'))
    await button('Leave').waitFor()
    await hand.measure()
    await expect.poll(() => words(page.locator('.pen-figures'))).toMatch(/in all/)
    await hand.press(button('Leave'))
    await page.locator('.pen').waitFor({ state: 'detached' })
  })

  it('copies a bed, widens it, and takes both back', async () => {
    const before = await bedCount()
    await open('O3')
    await more('Copy alongside')
    await hand.press(form('Copy 1 bed alongside').getByRole('button', { name: 'Make the copy' }))
    await expect.poll(bedCount).toBe(before + 1)
    await undo(before)
    await open('O3')
    await more('Widen or narrow')
    const widen = form('Widen or narrow a bed')
    await hand.press(hand === keys ? widen.getByLabel('inward') : widen.getByText('inward'))
    await hand.type(widen.getByLabel(/^By, on every side/), '0.05')
    await hand.press(widen.getByRole('button', { name: 'Change it' }))
    await expect.poll(() => lineOf('O3')).toMatch(/1\.00/)
    await undo(before)
    await expect.poll(() => lineOf('O3')).toMatch(/1\.10/)
  })

  it('splits a bed along a line, and merges its parts again', async () => {
    const before = await bedCount()
    await open('O3')
    await hand.press(card('O3').getByRole('button', { name: 'Find on the map' }))
    await hand.pane('Card')
    await more('Split')
    await button('Done').waitFor()
    await hand.cut()
    await hand.press(button('Done'))
    await hand.type(form('Split O3 in 2').getByLabel('Name of the other part'), 'O3 east')
    await hand.press(form('Split O3 in 2').getByRole('button', { name: 'Split it' }))
    await expect.poll(bedCount).toBe(before + 1)
    await expect.poll(namesOfO3).toEqual(['O3', 'O3 east'])
    await card('O3').waitFor()
    await more('Select with others')
    await expect.poll(() => page.locator('.several h2').textContent()).toBe('1 bed')
    await hand.pane('Table')
    await hand.press(inTable('O3 east'))
    await expect.poll(() => page.locator('.several h2').textContent()).toBe('2 beds')
    await hand.pane('Card')
    await hand.press(button('Merge'))
    await hand.press(form('Merge 2 beds').getByRole('button', { name: 'Merge them' }))
    await expect.poll(bedCount).toBe(before)
    await undo(before + 1)
    await undo(before)
  })

  it('removes a bed with what stands in it, and brings it back', async () => {
    const before = await bedCount()
    await open('O3')
    await hand.press(card('O3').getByRole('button', { name: 'Remove', exact: true }))
    const dialog = page.getByRole('dialog', { name: 'Remove O3?' })
    await dialog.getByText(/With it go/).waitFor()
    await hand.press(dialog.getByRole('button', { name: 'Remove', exact: true }))
    await dialog.waitFor({ state: 'detached' })
    await expect.poll(bedCount).toBe(before - 1)
    await undo(before)
  })

  it('draws a corner out of a field’s edge, takes it away and back again, and keeps it as one step', async () => {
    const line = () =>
      words(
        page.locator('section[aria-label="Fields"] tr', {
          has: page.getByRole('button', { name: 'Orehova loka', exact: true, includeHidden: true }),
        }),
      )
    const figures = () => words(page.locator('.pen-figures'))
    await hand.pane('Table')
    const before = await line()
    await hand.press(page.locator('section[aria-label="Fields"]').getByRole('button', { name: 'Orehova loka' }))
    await hand.press(card('Orehova loka').getByRole('button', { name: 'Find on the map' }))
    await hand.pane('Card')
    await hand.press(card('Orehova loka').getByRole('button', { name: 'Reshape' }))
    await page.locator('svg.sketch .middle').first().waitFor()
    const area = async () => (await figures()).split('area')[0]
    const still = await area()
    expect(await button('Remove corner').count()).toBe(0)
    await hand.grow()
    await expect.poll(area).not.toBe(still)
    const grown = await area()
    await hand.press(button('Remove corner'))
    await expect.poll(area).toBe(still)
    await hand.press(button('Back one'))
    await expect.poll(area).toBe(grown)
    await hand.press(button('Done'))
    await page.locator('.pen').waitFor({ state: 'detached' })
    await hand.pane('Table')
    await expect.poll(line).not.toBe(before)
    await hand.undo()
    await expect.poll(line).toBe(before)
  })

  it('brings a bed alongside an edge', async () => {
    await open('O3')
    await more('Align')
    const align = form('Align 1 bed')
    const turned = align.getByText(/^Turned by/)
    // Edges are waited for from now on.
    await mapHears(page)
    for (let upPx = 14; upPx < 80 && !(await turned.isVisible()); upPx += 6) await hand.edge(upPx)
    await turned.waitFor()
    await hand.press(align.getByRole('button', { name: 'Give up' }))
    await align.waitFor({ state: 'detached' })
  })
})
