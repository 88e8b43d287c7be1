import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import geodesic from 'geographiclib-geodesic'
import type { Feature, FeatureCollection, Polygon, Position } from 'geojson'
import { beforeAll, describe, expect, it } from 'vitest'
import { jsonOf, selion, useFolder, writeFiles } from '../store/cliRun.ts'

/**
 * The tomato field of Hartman & Stair (1942), Field Plot Technique With Tomatoes, Proc. Am. Soc. Hort. Sci. 41:315–320,
 * as kept in the R package agridat 1.27 (MIT): 384 plots of 24 ft × 6 ft net, in 32 rows of 12, with roadways of 12 ft
 * behind every fourth plot of a row; yields in lb. Published (C): 26,001 lb in all, 10.24 short tons an acre.
 */
const DATA = join(process.env.SELION_OPEN_DATA ?? '../shared/data', 'hartman.tomato.uniformity.txt')
const isThere = existsSync(DATA)
if (!isThere) console.info(`${DATA} is not there: it is in the R package agridat (MIT), or set SELION_OPEN_DATA`)

// Exact by definition: NIST Handbook 44, appendix C (C).
const FOOT_M = 0.3048
const POUND_KG = 0.45359237
const ACRE_M2 = 4046.8564224
const SHORT_TON_KG = 2000 * POUND_KG

const PLOT_FT = { length: 24, width: 6 }
const ROADWAY_FT = 12
// Indiana, 1941; where in it the field lay, how it was turned and its days are not told: these are made up.
const CORNER = { lat: 40.43, lon: -86.93 }
const BEARING_DEG = 20
const [SET_OUT, PICKED, CLEARED] = ['1941-05-20', '1941-09-01', '1941-10-15']

const LONG_MS = 120_000

type Plot = { readonly id: string; readonly row: number; readonly col: number; readonly lb: number }
type Bed = Readonly<Record<string, number>> & { readonly id: string }
type Told = Readonly<Record<string, number>> & { readonly beds: readonly Bed[] }

const within1e9 = (value: number, wanted: number) => expect(Math.abs(value / wanted - 1)).toBeLessThan(1e-9)
const within1e6 = (value: number, wanted: number) => expect(Math.abs(value / wanted - 1)).toBeLessThan(1e-6)

describe.skipIf(!isThere)('the tomato field of 1941', { timeout: LONG_MS }, () => {
  const folder = useFolder()
  const field = () => folder('field')
  const plots = isThere ? readPlots() : []
  let told: Told

  beforeAll(async () => {
    await writeFiles(field(), archiveOf(plots))
    const words = ['yield', field(), '--season', '1941', '--out', folder('surface.geojson'), '--json']
    told = await jsonOf<Told>(selion(...words))
  }, LONG_MS)

  it('is an archive without faults', async () => {
    const { records, faults } = await jsonOf<{ records: object; faults: unknown[] }>(selion('check', field(), '--json'))
    expect(faults).toEqual([])
    expect(records).toMatchObject({ fields: 1, beds: 384, plantings: 384, picks: 384 })
  })

  it('has plots of 24 ft × 6 ft, 384 × 144 square feet in all', async () => {
    const { fields, beds } = await jsonOf<{ fields: Bed[]; beds: Bed[] }>(
      selion('measure', field(), '--on', PICKED, '--json'),
    )
    expect(fields[0]!.bed_count).toBe(384)
    within1e6(fields[0]!.bed_area_m2!, 384 * 144 * FOOT_M ** 2)
    within1e6(fields[0]!.bed_area_m2! / ACRE_M2, (384 * 144) / 43_560)
    // 12 plots and two roadways long, 32 plots wide, and the 3 ft that are left all around.
    within1e6(fields[0]!.area_m2!, (12 * 24 + 2 * 12 + 6) * (32 * 6 + 6) * FOOT_M ** 2)
    for (const bed of beds) {
      within1e6(bed.length_m!, 24 * FOOT_M)
      within1e6(bed.width_m!, 6 * FOOT_M)
    }
  })

  it('gave 26,001 lb', () => {
    within1e9(told.total_kg!, 26_001 * POUND_KG)
    told.beds.forEach((bed, i) => {
      expect(bed.id).toBe(plots[i]!.id)
      within1e9(bed.kg!, plots[i]!.lb * POUND_KG)
    })
  })

  it('gave 10.24 short tons an acre', () => {
    expect(((told.kg_per_m2! * ACRE_M2) / SHORT_TON_KG).toFixed(2)).toBe('10.24')
    within1e6(told.area_m2!, 384 * 144 * FOOT_M ** 2)
    within1e6(told.kg_per_m2!, (26_001 * POUND_KG) / (384 * 144 * FOOT_M ** 2))
  })

  it('gives the same mass by its surface as by its picks', () => {
    within1e9(told.cells_kg!, 26_001 * POUND_KG)
    const { features } = JSON.parse(readFileSync(folder('surface.geojson'), 'utf8')) as FeatureCollection<
      Polygon,
      Record<string, number>
    >
    expect(features).toHaveLength(told.cells!)
    const sum = (property: string) => features.reduce((total, cell) => total + cell.properties[property]!, 0)
    within1e9(sum('kg'), 26_001 * POUND_KG)
    within1e9(sum('smooth_kg'), 26_001 * POUND_KG)
    within1e6(sum('area_m2'), 384 * 144 * FOOT_M ** 2)
  })

  it('gives an index that is each plot over the mean plot', () => {
    told.beds.forEach((bed, i) => {
      within1e6(bed.index!, plots[i]!.lb / (26_001 / 384))
    })
  })
})

function readPlots(): Plot[] {
  const [, ...lines] = readFileSync(DATA, 'utf8').trim().split('\n')
  return lines.map((line) => {
    const [row, col, lb] = line.split('\t').map(Number)
    return { id: `r${row}c${col}`, row: row!, col: col!, lb: lb! }
  })
}

/** The field as an archive: each plot a bed with its tomatoes and one pick of them. */
function archiveOf(plots: readonly Plot[]): Map<string, Uint8Array> {
  const beds = plots.map(({ id, row, col }) => {
    const alongFt = (col - 1) * PLOT_FT.length + Math.floor((col - 1) / 4) * ROADWAY_FT
    const ring = ringOf(alongFt, (row - 1) * PLOT_FT.width, PLOT_FT.length, PLOT_FT.width)
    return polygon({ id, field: 'field', name: id }, ring)
  })
  const around = ringOf(-3, -3, 12 * 24 + 2 * 12 + 6, 32 * 6 + 6)
  const lines = (header: string, of: (plot: Plot) => string) => `${[header, ...plots.map(of)].join('\n')}\n`
  const texts = {
    'farm.json': JSON.stringify({ format: 'selion-farm', version: 1, name: 'Tomato field', units: 'us' }),
    'fields.geojson': collection([polygon({ id: 'field', name: 'Tomatoes' }, around)]),
    'beds.geojson': collection(beds),
    'crops.csv': 'id,name,family,climbs\ntomato,Tomato,Solanaceae,no\n',
    'varieties.csv': 'id,crop,name\ntomato,tomato,not told\n',
    'plantings.csv': lines('id,bed,variety,set_out,cleared', ({ id }) => `${id},${id},tomato,${SET_OUT},${CLEARED}`),
    'picks.csv': lines('id,on,planting,quantity,unit', ({ id, lb }) => `${id},${PICKED},${id},${lb},lb`),
  }
  return new Map(Object.entries(texts).map(([name, text]) => [name, Buffer.from(text)]))
}

/** Corners of a rectangle of the field: its first corner so many feet along the rows and across them. */
function ringOf(alongFt: number, acrossFt: number, lengthFt: number, widthFt: number): Position[] {
  const [toFt, beyondFt] = [alongFt + lengthFt, acrossFt + widthFt]
  return [place(alongFt, acrossFt), place(toFt, acrossFt), place(toFt, beyondFt), place(alongFt, beyondFt)]
}

/** Lon/lat by GeographicLib's geodesics, along the rows from the field's corner and then square to them. */
function place(alongFt: number, acrossFt: number): Position {
  const earth = geodesic.Geodesic.WGS84
  const along = earth.Direct(CORNER.lat, CORNER.lon, BEARING_DEG, alongFt * FOOT_M)
  const to = earth.Direct(along.lat2!, along.lon2!, along.azi2! - 90, acrossFt * FOOT_M)
  return [to.lon2!, to.lat2!]
}

function polygon(properties: { readonly id: string } & Record<string, string>, ring: Position[]): Feature<Polygon> {
  return {
    type: 'Feature',
    id: properties.id,
    geometry: { type: 'Polygon', coordinates: [[...ring, ring[0]!]] },
    properties,
  }
}

function collection(features: readonly Feature[]): string {
  return JSON.stringify({ type: 'FeatureCollection', features })
}
