import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { unzipSync } from 'fflate'
import geodesic from 'geographiclib-geodesic'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type HeldPage, holdPage } from './holdPage.ts'
import {
  axeFinds,
  clickMap,
  figure,
  mapHears,
  moveOverMap,
  openPage,
  planShown,
  startFarm,
  takeTool,
  words,
} from './pageActs.ts'

const PHOTO = join(process.env.SELION_OPEN_DATA ?? '../shared/data', 'OSBS_029.tif')
const hasPhoto = existsSync(PHOTO)
if (!hasPhoto) console.info(`${PHOTO} is not there: NEON camera imagery (CC0), shipped with the deepforest package`)

let held: HeldPage
let page: Page

beforeAll(async () => {
  held = await holdPage()
  page = held.page
})
afterAll(() => held?.close())

/** From the farm that is open to the card where another is begun. */
async function leaveFarm(): Promise<void> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  await page.getByRole('button', { name: 'Other farms' }).click()
}

const form = (name: string | RegExp) => page.getByRole('form', { name })
const keep = (name: string | RegExp) => form(name).getByRole('button', { name: /^Keep/ })
const undone = () => page.locator('.steps .step-name').first()

/** Draws a field over most of the map and keeps it as it is proposed. */
async function drawField(): Promise<void> {
  await takeTool(page, 'Field')
  for (const [x, y] of [
    [250, 80],
    [750, 80],
    [750, 460],
    [250, 460],
    [250, 80],
  ] as const)
    await clickMap(page, x, y)
  await form('New field').waitFor()
  await page.keyboard.press('Enter')
  await page.getByRole('article', { name: 'Field 1' }).waitFor()
}

/** Draws a bed from a place to the right, of typed length and width. */
async function drawBed(x: number, y: number, lengthM: number, widthM: number): Promise<void> {
  await takeTool(page, 'Bed')
  await clickMap(page, x, y)
  await moveOverMap(page, x + 260, y + 60)
  await page.getByLabel(/^Length/).fill(String(lengthM))
  await page.getByLabel(/^Length/).press('Enter')
  await moveOverMap(page, x + 300, y + 120)
  await page.getByLabel(/^Width/).fill(String(widthM))
  await expect.poll(() => words(page.locator('.pen-figures'))).toMatch(new RegExp(`${lengthM}[.\\d]* (m|ft)`))
}

/** Where the upper left corner of what is being reshaped lies on the map; corners are drawn as squares of 10 pixels. */
async function fieldCorner(): Promise<readonly [number, number]> {
  const square = /^M([\d.]+) ([\d.]+)h10v10h-10Z/
  const corners = async () => {
    const paths = await page
      .locator('svg.sketch path')
      .evaluateAll((all) => all.map((one) => one.getAttribute('d') ?? ''))
    return paths.flatMap((d) => {
      const [, x, y] = square.exec(d) ?? []
      return x === undefined ? [] : [[Number(x) + 5, Number(y) + 5] as const]
    })
  }
  await expect.poll(async () => (await corners()).length, { timeout: 10_000 }).toBeGreaterThan(3)
  return (await corners()).sort(([ax, ay], [bx, by]) => ax + ay - bx - by)[0]!
}

/** Corners of the farm's photo as its archive has them: upper left, upper right, lower right, lower left. */
async function savedCorners(): Promise<[number, number][]> {
  await page.getByRole('button', { name: 'Farm', exact: true }).click()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as an archive' }).click(),
  ])
  const files = unzipSync(new Uint8Array(await readFile(await download.path())))
  const told = JSON.parse(new TextDecoder().decode(files['photos.json'])) as unknown
  return JSON.parse(/"corners":(\[\[.*?\]\])/.exec(JSON.stringify(told))![1]!) as [number, number][]
}

/** The cells of the bed's line in the table. */
const bedLine = async (name: string) =>
  words(page.locator('section[aria-label="Beds"] tr', { has: page.getByRole('button', { name, exact: true }) }))

describe('a farm of one’s own', () => {
  it('begins with what to do first, asks for a name where there is none, and loses nothing typed', async () => {
    await page.getByRole('button', { name: 'Start my own farm' }).click()
    await page.getByLabel('Where it lies').fill('somewhere')
    await page.getByRole('button', { name: 'Start this farm' }).click()
    expect(await words(page.locator('dialog [role="alert"]').first())).toMatch(/name/i)
    expect(await page.getByLabel('Where it lies').inputValue()).toBe('somewhere')
    await page.getByLabel('Where it lies').fill('46.3374, 15.6412')
    await page.getByLabel('Name of the farm').fill('Sunny Bank')
    await page.getByRole('button', { name: 'Start this farm' }).click()
    await planShown(page)
    expect(await words(page.locator('.first-steps'))).toMatch(/Nothing is drawn yet/)
    expect(await axeFinds(page)).toEqual([])
  })

  it('has a bed of typed length and width in its table as it was on the pen, taken back, done again, and there after a reload', async () => {
    await drawField()
    await drawBed(300, 120, 20, 1.2)
    const pen = await words(page.locator('.pen-figures'))
    // 20 m × 1.2 m, by hand.
    expect(pen).toMatch(/20\.00 m[\s\S]*1\.20 m[\s\S]*24\.0 m²/)
    await page.getByLabel(/^Width/).press('Enter')
    await form('New bed').waitFor()
    expect(await form('New bed').getByLabel('Name').inputValue()).toBe('F1')
    await page.keyboard.press('Enter')
    await page.getByRole('article', { name: 'F1' }).waitFor()
    expect(await bedLine('F1')).toMatch(/F1\s+20\.00\s+1\.20\s+24\.0/)
    expect(await words(figure(page))).toBe('24 m²')
    expect(await words(undone())).toBe('Draw bed F1')

    await page.keyboard.press('Control+z')
    await expect.poll(() => words(figure(page))).toBe('0 m²')
    await page.keyboard.press('Control+Shift+z')
    await expect.poll(() => words(figure(page))).toBe('24 m²')

    await page.reload()
    await planShown(page)
    expect(await bedLine('F1')).toMatch(/F1\s+20\.00\s+1\.20\s+24\.0/)
    expect(await words(undone())).toBe('Draw bed F1')
  })

  it('asks before it keeps a bed that leaves its field, and keeps what was typed', async () => {
    await drawBed(60, 320, 30, 1.2)
    await page.getByLabel(/^Width/).press('Enter')
    await form('New bed').getByLabel('Name').fill('Stray')
    await form('New bed').getByLabel('Field').selectOption({ label: 'Field 1' })
    await keep('New bed').click()
    await form('New bed').getByRole('alert').waitFor()
    expect(await words(form('New bed').getByRole('alert'))).toMatch(/Stray.*Field 1/)
    expect(await form('New bed').getByLabel('Name').inputValue()).toBe('Stray')
    await page.getByRole('button', { name: 'Keep it anyway' }).click()
    await page.getByRole('article', { name: 'Stray' }).waitFor()
  })

  it('takes a row and a tree, changes a name, and tells what goes with a field that is removed', async () => {
    await page.locator('section[aria-label="Beds"]').getByRole('button', { name: 'F1', exact: true }).click()
    await page.getByRole('article', { name: 'F1' }).waitFor()
    await page.getByRole('button', { name: 'Change', exact: true }).click()
    await form('Change F1').getByLabel('Name').fill('North bed')
    await keep('Change F1').click()
    await page.getByRole('article', { name: 'North bed' }).waitFor()

    // The bed is brought into the middle of the map; its long axis runs as it was drawn, 60 down for 260 across.
    await page.getByRole('button', { name: 'Find on the map' }).click()
    await page.waitForTimeout(1000)
    const map = (await page.locator('.maplibregl-canvas').boundingBox())!
    const along = (px: number) => [map.width / 2 + (px * 260) / 267, map.height / 2 + (px * 60) / 267] as const
    await takeTool(page, 'Row')
    await clickMap(page, ...along(-200))
    await clickMap(page, ...along(200))
    await clickMap(page, ...along(200))
    await form('New row').waitFor()
    expect(await form('New row').getByLabel('Side').inputValue()).toBe('middle')
    await page.keyboard.press('Enter')
    await page.getByRole('article', { name: 'North bed middle' }).waitFor()
    const rowM = Number((await bedLine('North bed')).match(/(\d+)\s*$/)![1])
    expect(rowM).toBeGreaterThan(5)
    expect(rowM).toBeLessThanOrEqual(20)
    await page.getByRole('button', { name: 'All', exact: true }).click()
    await page.waitForTimeout(1000)

    await takeTool(page, 'Tree')
    await clickMap(page, 600, 300)
    await form('New tree').getByLabel('Height, m').fill('tall')
    await keep('New tree').click()
    await form('New tree').getByRole('alert').first().waitFor()
    expect(await words(form('New tree').getByRole('alert'))).toMatch(/species[\s\S]*“tall” is not a number/i)
    await form('New tree').getByLabel('Species').fill('hazel')
    await form('New tree').getByLabel('Height, m').fill('3,5')
    await keep('New tree').click()
    await page.getByRole('article', { name: /hazel/i }).waitFor()

    await page.locator('section[aria-label="Fields"]').getByRole('button', { name: 'Field 1' }).click()
    const area = () => words(page.locator('section[aria-label="Fields"] tbody td').first())
    const before = await area()
    await page.getByRole('button', { name: 'Reshape' }).click()
    await mapHears(page)
    await page.getByText('Drag a corner').waitFor()
    const corner = await fieldCorner()
    await moveOverMap(page, ...corner)
    await page.mouse.down()
    await moveOverMap(page, corner[0] - 30, corner[1])
    await page.mouse.up()
    await page.getByRole('button', { name: 'Done' }).click()
    await expect.poll(area).not.toBe(before)
    expect(await words(undone())).toBe('Reshape field')
    await page.keyboard.press('Control+z')
    await expect.poll(area).toBe(before)

    await page.getByRole('article', { name: 'Field 1' }).getByRole('button', { name: 'Remove' }).click()
    await page.getByText('2 beds', { exact: true }).waitFor()
    await page.getByRole('dialog').getByRole('button', { name: 'Remove', exact: true }).click()
    await page.locator('section[aria-label="Fields"]').waitFor({ state: 'detached' })
    await page.keyboard.press('Control+z')
    await page.getByRole('button', { name: 'North bed' }).waitFor()
  })

  it('tells in feet what is kept in metres', async () => {
    await leaveFarm()
    await startFarm(page, 'Long Acre', '39.5 N 86.2 W', 'Feet, pounds')
    // The map left the other farm's place for this one's.
    await expect.poll(() => page.url()).toMatch(/,?-86\.2,39\.5,17$/)
    await drawField()
    await drawBed(300, 120, 100, 4)
    await page.getByLabel(/^Width/).press('Enter')
    await form('New bed').waitFor()
    await page.keyboard.press('Enter')
    await page.getByRole('article', { name: 'F1' }).waitFor()
    expect(await bedLine('F1')).toMatch(/F1\s+100\.0\s+4\.0\s+400/)
  })

  it.skipIf(!hasPhoto)('lays a real aerial photo where GDAL lays it, and keeps a bed drawn over it', async () => {
    await leaveFarm()
    await startFarm(page, 'Ordway', '')
    await page.locator('.table-pane .file input').setInputFiles(PHOTO)
    await page.locator('.photos li').waitFor()
    await page.waitForTimeout(1500)
    await drawField()
    await drawBed(300, 120, 10, 1.2)
    await page.getByLabel(/^Width/).press('Enter')
    await form('New bed').waitFor()
    await page.keyboard.press('Enter')
    await page.getByRole('article', { name: 'F1' }).waitFor()
    await page.reload()
    await planShown(page)
    expect(await bedLine('F1')).toMatch(/F1\s+10\.00\s+1\.20\s+12\.0/)
    await page.locator('.photos li').waitFor()

    const [upperLeft, , lowerRight] = await savedCorners()
    // Read with GDAL: 29°41′33.66″N 81°59′24.36″W and 29°41′32.37″N 81°59′22.86″W, to a hundredth of a second (C).
    const seconds = (degrees: number, minutes: number, s: number) => degrees + minutes / 60 + s / 3600
    const near = (told: number, read: number) => expect(Math.abs(told - read) * 3600).toBeLessThan(0.0051)
    near(upperLeft![1], seconds(29, 41, 33.66))
    near(upperLeft![0], -seconds(81, 59, 24.36))
    near(lowerRight![1], seconds(29, 41, 32.37))
    near(lowerRight![0], -seconds(81, 59, 22.86))
  })
})

describe('a picture with its world file', () => {
  /** Opens a picture of 100 × 50 pixels with a world file of six lines. */
  async function openPlaced(lines: readonly number[]): Promise<void> {
    const picture = await page.evaluate(async () => {
      const canvas = new OffscreenCanvas(100, 50)
      canvas.getContext('2d')!.fillRect(0, 0, 50, 25)
      return [...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer())]
    })
    await page.locator('.table-pane .file input').setInputFiles([
      { name: 'air.png', mimeType: 'image/png', buffer: Buffer.from(picture) },
      { name: 'air.pgw', mimeType: 'text/plain', buffer: Buffer.from(lines.join('\n')) },
    ])
  }

  it('in longitude and latitude lies where the file says, is dimmed, hidden, removed and brought back', async () => {
    await leaveFarm()
    await startFarm(page, 'Placed', '')
    await openPlaced([0.00001, 0, 0, -0.00001, 15.64, 46.34])
    const line = page.locator('.photos li')
    await line.waitFor()
    // Lines A, D, B, E, C, F; C and F are the centre of the upper left pixel (ESRI's world file; C).
    const [upperLeft, , lowerRight] = await savedCorners()
    expect(upperLeft![0]).toBeCloseTo(15.64 - 0.000005, 9)
    expect(upperLeft![1]).toBeCloseTo(46.34 + 0.000005, 9)
    expect(lowerRight![0]).toBeCloseTo(15.64 - 0.000005 + 0.001, 9)
    expect(lowerRight![1]).toBeCloseTo(46.34 + 0.000005 - 0.0005, 9)

    await line.getByLabel(/^shown/).uncheck()
    await line.getByRole('slider').fill('40')
    expect(await words(line)).toMatch(/40 %/)
    await line.getByRole('button', { name: /^Remove/ }).click()
    await line.waitFor({ state: 'detached' })
    await page.keyboard.press('Control+z')
    await line.waitFor()
  })

  it('of another place is refused, and nothing of it is kept', async () => {
    await leaveFarm()
    await startFarm(page, 'Somewhere else', '46.3374, 15.6412')
    await openPlaced([0.00001, 0, 0, -0.00001, 15.64, -46.34])
    // From 46.34° north to as far south: 92.68° of a meridian of 10,002 km a quarter (by hand), on a sphere 10,305 km.
    await page.getByText(/lies 10,30\d km from the farm’s middle: it is of another place/).waitFor()
    expect(await page.locator('.photos li').count()).toBe(0)
  })

  it('in metres asks for the grid, and lies where that zone has it', async () => {
    await leaveFarm()
    await startFarm(page, 'Placed by zone', '')
    await openPlaced([1, 0, 0, -1, 500_000.5, 5_128_999.5])
    await form('Which grid').waitFor()
    expect(await axeFinds(page)).toEqual([])
    await form('Which grid').getByLabel('UTM zone').fill('61')
    await page.getByRole('button', { name: 'Open it there' }).click()
    await form('Which grid').getByRole('alert').waitFor()
    await form('Which grid').getByLabel('UTM zone').fill('33')
    await page.getByRole('button', { name: 'Open it there' }).click()
    await page.locator('.photos li').waitFor()
    // E 500 000 is the middle of zone 33, 15° E, where the scale is 0.9996: N is that much of the meridian's arc (EPSG
    // Guidance Note 7-2, C2), whose end is had from GeographicLib (X).
    const [upperLeft] = await savedCorners()
    const end = geodesic.Geodesic.WGS84.Direct(0, 15, 0, 5_129_000 / 0.9996)
    expect(upperLeft![0]).toBeCloseTo(15, 9)
    expect(upperLeft![1]).toBeCloseTo(end.lat2!, 8)
  })
})

describe('a farm that is open in another tab', () => {
  it('says so, is taken over on request, and tells the tab that lost it', async () => {
    const second = await openPage(held.browser)
    await second.getByRole('button', { name: 'Take over here' }).click()
    await planShown(second)
    expect(await words(second.locator('.photos'))).toMatch(/air/)
    await page.getByRole('dialog', { name: /no longer open here/ }).waitFor()
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Take over here' }).click()
    await planShown(page)
    await second.getByRole('dialog', { name: /no longer open here/ }).waitFor()
  })
})

describe('a browser that was ended before it kept which farm was opened last', () => {
  it('opens that farm all the same', async () => {
    const older = await page.evaluate(() => localStorage.getItem('selion.farm')!)
    await leaveFarm()
    await startFarm(page, 'Opened last', '46, 15')
    // Whoever opens the page again tomorrow is at tomorrow: today is not in the address.
    await expect.poll(() => new URL(page.url()).hash).toMatch(/^#ground\/\/15,46,17$/)
    await page.evaluate((older) => {
      localStorage.setItem('selion.farm', older)
      location.hash = location.hash.replace(/^(#\w+)\/[^/]*/, '$1/2026-03-04')
    }, older)
    await page.reload()
    await planShown(page)
    expect(await page.title()).toMatch(/, Opened last, Selion$/)
    expect(new URL(page.url()).hash.split('/')[1]).toBe('2026-03-04')
  })
})

describe('a farm that was not told where it lies', () => {
  it('asks before anything is drawn, and is there then', async () => {
    await leaveFarm()
    await startFarm(page, 'Nowhere yet', '')
    const asked = page.locator('.where-first')
    await asked.waitFor()
    expect(await axeFinds(page)).toEqual([])
    await asked.getByLabel('Latitude, longitude').fill('somewhere')
    await asked.getByRole('button', { name: 'Go there' }).click()
    expect(await words(asked.getByRole('alert'))).not.toBe('')
    await asked.getByLabel('Latitude, longitude').fill('46.3374, 15.6412')
    await asked.getByRole('button', { name: 'Go there' }).click()
    await asked.waitFor({ state: 'detached' })
    await expect.poll(() => page.url()).toMatch(/15\.6412,46\.3374,17$/)
    await drawField()
    // The farm has its middle with the first field: from however far it is looked at, nothing is asked again.
    await page.evaluate(() => {
      location.hash = '#ground//0,0,1'
    })
    await expect.poll(() => page.url()).toMatch(/\/\/0,0,[01]/)
    expect(await asked.count()).toBe(0)
  })
})

describe('an archive', () => {
  const open = (name: string, bytes: Buffer) =>
    page.locator('.way input[accept*="zip"]').setInputFiles({ name, mimeType: 'application/zip', buffer: bytes })

  it('that is not sound is told file by file, and what is sound in it can be brought in', async () => {
    const { zipSync, strToU8 } = await import('fflate')
    const d = 0.001
    const ring = [
      [15, 46],
      [15 + d, 46],
      [15 + d, 46 + d],
      [15, 46 + d],
      [15, 46],
    ]
    const field = (id: string, coordinates: number[][][]) => ({
      type: 'Feature',
      geometry: { type: 'Polygon', coordinates },
      properties: { id, name: id },
    })
    const crossed = [ring[0]!, ring[2]!, ring[1]!, ring[3]!, ring[0]!]
    const zip = zipSync({
      'farm.json': strToU8(JSON.stringify({ format: 'selion-farm', version: 1, name: 'Half sound' })),
      'fields.geojson': strToU8(
        JSON.stringify({ type: 'FeatureCollection', features: [field('sound', [ring]), field('crossed', [crossed])] }),
      ),
    })
    await leaveFarm()
    await open('half.zip', Buffer.from(zip))
    const fault = page.locator('.start-fault')
    await fault.waitFor()
    expect(await words(fault.locator('tbody'))).toMatch(/fields\.geojson[\s\S]*crossed/)
    expect(await axeFinds(page)).toEqual([])
    await page.getByRole('button', { name: 'Bring in what is sound' }).click()
    await planShown(page)
    expect(await words(page.locator('section[aria-label="Fields"] tbody'))).toMatch(/^sound/)
  })
})
