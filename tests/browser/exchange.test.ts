import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { FeatureCollection } from 'geojson'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { at, box, collection, feature, point } from '../unit/exchange/archiveOf.ts'
import { type HeldPage, holdPage } from './holdPage.ts'
import { axeFinds, DESK_SIZE, PHONE_SIZE, planShown, tap, words } from './pageActs.ts'

let held: HeldPage
let page: Page
let file: string

/** Parcels and strips as another program may have them: other names, one strip outside of every parcel, one that reaches out by 2 m. */
const GIVEN = collection(
  feature(null, box(0, 0, 60, 60), { kind: null, label: 'Upper ground' }),
  feature(null, box(5, 5, 1.2, 40), { field: 'Upper ground', label: 'Strip 1' }),
  feature(null, box(8, 5, 1.2, 40), { field: 'Upper ground', label: 'Strip 2' }),
  feature(null, box(11, 5, 1.2, 57), { field: 'Upper ground', label: 'Strip 4' }),
  feature(null, box(300, 5, 1.2, 40), { field: 'elsewhere', label: 'Strip 3' }),
  feature(null, point(20, 20), { label: 'Old pear' }),
)

beforeAll(async () => {
  held = await holdPage()
  page = held.page
  file = join(held.profile, 'plots.geojson')
  await writeFile(file, JSON.stringify(GIVEN))
})
afterAll(() => held?.close())

const panel = () => page.getByRole('region', { name: 'Bring in' })
const layer = (name: string) => panel().getByRole('region', { name: `Layer ${name}` })
const sum = () => words(panel().locator('.bring-sum'))

/** In the page: what a long step first tells of itself, and the height of its buttons; then it is stopped, at once. */
function stopWhenTold() {
  return new Promise<{ told: string; value: number; max: number; lowest: number }>((settle) => {
    const look = () => {
      const plaque = document.querySelector('section[aria-label="Being kept"]')
      const told = [...(plaque?.querySelectorAll('*') ?? [])].find(
        (one) => one.children.length === 0 && /records written$/.test(one.textContent!),
      )
      if (!plaque || !told) return
      seen.disconnect()
      const { value, max } = plaque.querySelector('progress')!
      const buttons = [...plaque.querySelectorAll('button')]
      const lowest = Math.min(...buttons.map((one) => one.getBoundingClientRect().height))
      settle({ told: told.textContent!, value, max, lowest })
      buttons.find((one) => one.textContent === 'Stop')!.click()
    }
    const seen = new MutationObserver(look)
    seen.observe(document.body, { childList: true, subtree: true, characterData: true })
  })
}

async function chooseByFinger(path: string): Promise<void> {
  await tap(page.getByRole('button', { name: 'Farm', exact: true }))
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    tap(page.getByRole('button', { name: 'Bring in a file' })),
  ])
  await chooser.setFiles(path)
}

it('begins a farm with a file: layers and columns are given by hand, what is outside is told, all is one step', async () => {
  await page.locator('.way', { hasText: 'Begin from a map file' }).locator('input').setInputFiles(file)
  await planShown(page)
  await layer('beds').waitFor()
  // Beds are told by their column "field"; parcels and trees are for the person to say.
  await layer('areas').getByRole('combobox').first().selectOption({ label: 'fields' })
  await layer('areas').getByLabel('Column for name').waitFor()
  await expect.poll(() => layer('areas').getByLabel('Column for name').inputValue()).toBe('label')
  await layer('points').getByRole('combobox').first().selectOption({ label: 'trees' })
  await layer('points').getByLabel('Where there is none, species').fill('pear')
  await page.keyboard.press('Tab')
  await expect.poll(sum).toBe('Would be kept: 1 field, 2 beds, 1 tree.')
  const leftOut = () => words(panel().getByRole('region', { name: 'Would be left out' }))
  expect(await leftOut()).toMatch(/feature 4.*leaves its field.*by 2\.0\d m.*feature 5.*elsewhere/s)
  // Told before anything is kept, and let in where the person says so.
  await panel()
    .getByLabel(/^Keep what reaches out: 1 bed .*by up to 2\.0\d m/)
    .press('Space')
  await expect.poll(sum).toBe('Would be kept: 1 field, 3 beds, 1 tree.')
  expect(await leftOut()).not.toMatch(/feature 4/)
  expect(await axeFinds(page)).toEqual([])
  await panel().getByRole('button', { name: 'Keep in this farm' }).click()
  await panel().getByText('5 records are kept').waitFor()
  await panel().getByRole('button', { name: 'Understood' }).click()
  expect(await words(page.locator('.steps .step-name').first())).toBe('Bring in plots.geojson')
  await page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'Strip 1', exact: true }).waitFor()
  await page.keyboard.press('Control+z')
  await page.locator('.first-steps').waitFor()
  await page.keyboard.press('Control+Shift+z')
  await page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'Strip 2', exact: true }).waitFor()
})

it('sends layers out by keyboard as a file that reads back, and takes what is dropped on the map', async () => {
  await page.getByRole('button', { name: 'Farm', exact: true }).focus()
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Send out' }).focus()
  await page.keyboard.press('Enter')
  const dialog = page.getByRole('dialog', { name: 'Send out' })
  await dialog.getByLabel('Format').waitFor()
  expect(await axeFinds(page)).toEqual([])
  await dialog.getByLabel('Format').selectOption({ label: 'GeoPackage' })
  await dialog.getByLabel('trees').press('Space')
  const save = async () => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save the file' }).press('Enter'),
    ])
    return readFile(await download.path())
  }
  const packed = await save()
  expect(packed.subarray(0, 15).toString()).toBe('SQLite format 3')
  await dialog.waitFor({ state: 'detached' })

  await page.locator('.map-pane').evaluate(
    (pane, bytes) => {
      const data = new DataTransfer()
      data.items.add(new File([Uint8Array.from(bytes)], 'back.gpkg'))
      pane.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }))
    },
    [...packed],
  )
  await layer('beds').waitFor()
  // The same ids: they are there already, until the person says that they change what is there.
  await expect.poll(sum).toBe('Nothing would be kept yet.')
  await panel().getByText('What has the id of a record').click()
  await expect.poll(sum).toBe('Would be kept: 1 field, 2 beds.')
  await panel().getByRole('button', { name: 'Give up' }).click()
  await page.locator('section[aria-label="Beds"]').waitFor()
})

it('sends out GeoJSON of the day shown, and brings a file in, by finger on a phone', async () => {
  await page.setViewportSize(PHONE_SIZE)
  await tap(page.getByRole('button', { name: 'Farm', exact: true }))
  await tap(page.getByRole('button', { name: 'Send out' }))
  const dialog = page.getByRole('dialog', { name: 'Send out' })
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    tap(dialog.getByRole('button', { name: 'Save the file' })),
  ])
  const { features } = JSON.parse(await readFile(await download.path(), 'utf8')) as FeatureCollection
  expect(features.map((one) => one.properties!.kind)).toEqual(['fields', 'beds', 'beds', 'beds', 'trees'])
  await chooseByFinger(file)
  await layer('beds').waitFor()
  expect(await axeFinds(page)).toEqual([])
  // The ids of these are new: they would stand there twice, in the field that is named.
  await expect.poll(sum).toBe('Would be kept: 2 beds.')
  await tap(panel().getByRole('button', { name: 'Keep in this farm' }))
  await panel().getByText('2 records are kept').waitFor()
  await tap(panel().getByRole('button', { name: 'Understood' }))
  await tap(page.getByRole('button', { name: 'Undo: Bring in plots.geojson' }))
  await page.getByRole('button', { name: 'Redo: Bring in plots.geojson' }).and(page.locator(':enabled')).waitFor()
})

it('tells how far it is with a file of many beds, and keeps none of them where it is stopped', async () => {
  const before = await page.getByRole('button', { name: /^Undo/ }).getAttribute('aria-label')
  const many = join(held.profile, 'many.geojson')
  // So many that no machine is done with them within the second after which a long step is told.
  const beds = Array.from({ length: 3000 }, (_, n) =>
    feature(null, box(202 + Math.floor(n / 3) * 1.3, 3 + (n % 3) * 32, 0.9, 30), {
      kind: 'beds',
      field: 'Long ground',
      name: `Strip ${n}`,
    }),
  )
  const ground = feature(null, box(200, 0, 1310, 100), { kind: 'fields', name: 'Long ground' })
  await writeFile(many, JSON.stringify(collection(ground, ...beds)))
  await chooseByFinger(many)
  const whole = 'Would be kept: 1 field, 3,000 beds.'
  await expect.poll(sum, { timeout: 30_000 }).toBe(whole)
  const stopped = page.evaluate(stopWhenTold)
  await tap(panel().getByRole('button', { name: 'Keep in this farm' }))
  const { told, value, max, lowest } = await stopped
  expect(told).toMatch(/^\d[\d,]* of 3,001 records written$/)
  expect(max).toBe(3001)
  expect(value).toBeLessThan(3001)
  expect(lowest).toBeGreaterThanOrEqual(43.9)
  await expect
    .poll(() => words(panel().getByRole('alert')))
    .toMatch(/many\.geojson” was stopped: nothing of it is kept/)
  await page.getByRole('region', { name: 'Being kept' }).waitFor({ state: 'detached' })
  expect(await sum()).toBe(whole)
  expect(await page.getByRole('button', { name: /^Undo/ }).getAttribute('aria-label')).toBe(before)
  await tap(panel().getByRole('button', { name: 'Give up' }))
})

it('has the person say which columns of a table are its coordinates, tells wrong ones there, and keeps its points', async () => {
  await page.setViewportSize(DESK_SIZE)
  const spots = join(held.profile, 'spots.csv')
  const lines = [at(30, 20), at(34, 24)].map(([lon, lat], i) => `Spot ${i};${lat};${lon}`)
  await writeFile(spots, `what;p;q\n${lines.join('\n')}\n`)
  await page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'Strip 1', exact: true }).click()
  await page.locator('article.card').waitFor()
  await page.getByLabel('File to bring in').setInputFiles(spots)
  const [north, east] = ['North / latitude', 'East / longitude'].map((label) => panel().getByLabel(label)) as [
    Locator,
    Locator,
  ]
  const read = panel().getByRole('button', { name: 'Read them so' })
  const wrong = () => words(panel().getByRole('alert'))
  await north.waitFor()
  // The card leaves its room to the panel.
  expect(await page.locator('article.card').count()).toBe(0)
  expect(await panel().getByRole('button', { name: 'Keep in this farm' }).isDisabled()).toBe(true)
  await read.click()
  await expect.poll(wrong).toBe('Choose a column. Choose a column.')
  await north.selectOption('what')
  await east.selectOption('q')
  await read.press('Enter')
  await expect.poll(wrong).toBe('“what” has "Spot 0" in line 2, which is not a number')
  expect(await north.getAttribute('aria-invalid')).toBe('true')
  expect(await axeFinds(page)).toEqual([])
  await north.selectOption('q')
  await east.selectOption('p')
  await read.press('Enter')
  await expect.poll(wrong).toMatch(/far from this farm.*swapped/)
  await north.selectOption('p')
  await east.selectOption('q')
  await read.press('Enter')
  await panel().getByText('Coordinates: north from “p”, east from “q”').waitFor()
  await layer('spots').getByRole('combobox').first().selectOption({ label: 'trees' })
  await layer('spots').getByLabel('Where there is none, species').fill('pear')
  await page.keyboard.press('Tab')
  await expect.poll(sum).toBe('Would be kept: 2 trees.')
  expect(await words(panel().getByRole('region', { name: 'Noted' }))).toMatch(/columns "p" \(north\) and "q" \(east\)/)
  await panel().getByRole('button', { name: 'Keep in this farm' }).click()
  await panel().getByText('2 records are kept').waitFor()
  await panel().getByRole('button', { name: 'Understood' }).click()
})

it('tells what of a file is drawn as what: kept, left out for a fault, not taken', async () => {
  const corners = [at(400, 0), at(450, 50), at(450, 0), at(400, 50), at(400, 0)]
  const crossed = { type: 'Polygon', coordinates: [corners] }
  const mixed = join(held.profile, 'mixed.geojson')
  const given = collection(
    feature(null, box(300, 0, 50, 50), { kind: 'fields', name: 'Sound' }),
    feature(null, crossed, { kind: 'fields', name: 'Crossed' }),
    feature(null, point(310, 10), { label: 'Post' }),
    feature(null, null, { kind: 'fields', name: 'Nowhere' }),
  )
  await writeFile(mixed, JSON.stringify(given))
  await page.getByLabel('File to bring in').setInputFiles(mixed)
  await expect.poll(sum).toBe('Would be kept: 1 field.')
  expect((await words(panel().getByRole('region', { name: 'On the map' }))).split('\n').filter(Boolean)).toEqual([
    'would be kept (1)',
    'would be left out (1)',
    'not taken (1)',
    'Not on the map: 1 without a place that could be drawn.',
  ])
  expect(await words(panel().getByRole('region', { name: 'Would be left out' }))).toMatch(/crosses itself/)
  await panel().getByRole('button', { name: 'Give up' }).click()
})
