import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import geodesic from 'geographiclib-geodesic'
import type { FeatureCollection, Position } from 'geojson'
import { beforeAll, describe, expect, it } from 'vitest'
import { farmWith } from '../unit/exchange/archiveOf.ts'
import { filesIn, jsonOf, selion, selionByNpm, useFolder, writeFiles } from './cliRun.ts'

// Keys, figures and exit codes by the project's own contract of the command line and of the archive, version 1.
const FIELD = [
  'id',
  'name',
  'area_m2',
  'bed_count',
  'bed_area_m2',
  'row_m',
  'support_m',
  'climbing_m',
  'held_m',
  'unheld_m',
]
const BED = [
  'id',
  'field',
  'name',
  'area_m2',
  'length_m',
  'width_m',
  'bearing_deg',
  'row_m',
  'support_m',
  'climbing_m',
  'unheld_m',
]
const PAIR = ['bed', 'tree', 'trunk_m', 'canopy_m', 'under_canopy_m2', 'within_reach_m2', 'sensitive']
const YIELD = ['total_kg', 'cell_m', 'cells', 'cells_kg', 'area_m2', 'kg_per_m2', 'beds', 'zones']
const BED_YIELD = ['id', 'kg', 'kg_per_m2', 'kg_per_row_m', 'index', 'gi_star', 'p', 'q']
const ZONE = ['area_m2', 'index', 'shortfall_kg', 'beds', 'geometry']

type Row = Readonly<Record<string, unknown>>
type Numbers = Readonly<Record<string, number>>
interface Fault {
  readonly file: string
  readonly record: string
  readonly field: string
  readonly reason: string
}

const folder = useFolder()
const demo = () => folder('demo')
const small = () => folder('small')

/** The keys that every one of these has, where all have the same ones. */
const keysOf = (rows: readonly Row[]) => {
  const [first, ...others] = [...new Set(rows.map((row) => Object.keys(row).join()))]
  return others.length > 0 || first === undefined
    ? [`${rows.length} rows, ${others.length + 1} sets of keys`]
    : first.split(',')
}

beforeAll(async () => {
  expect(await selionByNpm('demo', demo())).toMatchObject({ code: 0, error: '' })
  await writeFiles(small(), farmWith({}))
})

describe('the demo farm', () => {
  it('passes check through npm, every record counted', async () => {
    const told = await jsonOf<{ records: Numbers; faults: Fault[] }>(selionByNpm('check', demo(), '--json'))
    expect(Object.keys(told)).toEqual(['records', 'faults'])
    expect(told.faults).toEqual([])
    const counted = new Map<string, number>()
    for (const [name, bytes] of await filesIn(demo())) {
      const kind = name.replace(/\.\w+$/, '')
      if (name.endsWith('.csv')) counted.set(kind, parse(bytes, { columns: true }).length)
      else if (name.endsWith('.geojson'))
        counted.set(kind, (JSON.parse(bytes.toString()) as FeatureCollection).features.length)
      else if (name === 'photos.json') counted.set(kind, (JSON.parse(bytes.toString()) as unknown[]).length)
    }
    expect(told.records).toEqual(Object.fromEntries(counted))
  })

  it('is measured as on a day, every field and bed listed', async () => {
    const told = await jsonOf<{ fields: Numbers[]; beds: Numbers[] }>(
      selion('measure', demo(), '--on', '2025-08-01', '--json'),
    )
    expect(Object.keys(told)).toEqual(['fields', 'beds'])
    expect(keysOf(told.fields)).toEqual(FIELD)
    expect(keysOf(told.beds)).toEqual(BED)
    const ids = async (file: string) =>
      (JSON.parse(await readFile(join(demo(), file), 'utf8')) as FeatureCollection).features.map(
        (f) => f.properties!.id,
      )
    expect(told.fields.map((field) => field.id)).toEqual(await ids('fields.geojson'))
    expect(told.beds.map((bed) => bed.id)).toEqual(await ids('beds.geojson'))
    const systems = parse(await readFile(join(demo(), 'systems.csv')), { columns: true }) as { name: string }[]
    for (const field of told.fields) {
      expect(Object.keys(field.support_m as unknown as Numbers).sort()).toEqual(systems.map(({ name }) => name).sort())
      expect(field.held_m! + field.unheld_m!).toBeCloseTo(field.climbing_m!, 9)
    }
    expect(told.fields.reduce((sum, field) => sum + field.climbing_m!, 0)).toBeGreaterThan(100)
  })

  it('is paired with its walnuts', async () => {
    const told = await jsonOf<{ pairs: Row[] }>(selion('clearance', demo(), '--on', '2025-08-01', '--json'))
    expect(Object.keys(told)).toEqual(['pairs'])
    expect(keysOf(told.pairs)).toEqual(PAIR)
    expect(told.pairs.some((pair) => (pair.sensitive as string[]).length > 0)).toBe(true)
    for (const pair of told.pairs) expect(pair.canopy_m as number).toBeLessThanOrEqual(pair.trunk_m as number)
  })

  it('has its yield told, and the surface written beside it with the same mass', async () => {
    const words = ['yield', demo(), '--season', '2025', '--cell', '0.5', '--out', folder('surface.geojson')]
    const told = await jsonOf<Row & { beds: Row[]; zones: Row[] }>(selion(...words, '--json'))
    expect(Object.keys(told).slice(0, YIELD.length)).toEqual(YIELD)
    expect(told.cell_m).toBe(0.5)
    expect(keysOf(told.beds)).toEqual(BED_YIELD)
    expect(told.beds).toHaveLength(60)
    // Beside what the contract has of a zone: its shortfall in metres of row, less than its beds have of them.
    expect(keysOf(told.zones)).toEqual([...ZONE, 'shortfall_row_m'])
    const measured = await jsonOf<{ beds: { id: string; row_m: number }[] }>(
      selion('measure', demo(), '--on', '2025-08-01', '--json'),
    )
    for (const { beds, index, shortfall_row_m } of told.zones) {
      const rowM = measured.beds.reduce((sum, { id, row_m }) => sum + ((beds as string[]).includes(id) ? row_m : 0), 0)
      expect(shortfall_row_m).toBeGreaterThan(0)
      expect(shortfall_row_m).toBeLessThanOrEqual(rowM * (1 - (index as number)) * (1 + 1e-9))
    }
    for (const { geometry } of told.zones) expect((geometry as { type: string }).type).toMatch(/^(Multi)?Polygon$/)
    const surface = JSON.parse(await readFile(folder('surface.geojson'), 'utf8')) as FeatureCollection
    expect(surface.type).toBe('FeatureCollection')
    expect(surface.features).toHaveLength(told.cells as number)
    const kg = surface.features.reduce((sum, cell) => sum + (cell.properties!.kg as number), 0)
    expect(Math.abs(kg / (told.total_kg as number) - 1)).toBeLessThan(1e-9)
    expect(Math.abs((told.cells_kg as number) / (told.total_kg as number) - 1)).toBeLessThan(1e-9)
  })

  it('has the yield of one family over several seasons told, and its surface written as a table', async () => {
    const file = folder('surface.csv')
    const words = ['yield', demo(), '--seasons', '2024-2025', '--family', 'Solanaceae', '--cell', '2', '--out', file]
    const told = await jsonOf<Row>(selion(...words, '--json'))
    expect(told.seasons).toEqual([2024, 2025])
    const [head, ...lines] = (await readFile(file, 'utf8')).trimEnd().split('\r\n')
    expect(head).toBe('bed,lon,lat,area_m2,kg,kg_per_m2,index,smooth_kg,smooth_kg_per_m2,smooth_index')
    expect(lines).toHaveLength(told.cells as number)
    const kg = lines.reduce((sum, line) => sum + Number(line.split(',')[4]), 0)
    expect(Math.abs(kg / (told.total_kg as number) - 1)).toBeLessThan(1e-9)
    const alone = await jsonOf<Row>(selion('yield', demo(), '--season', '2025', '--family', 'Solanaceae', '--json'))
    expect(alone.total_kg).toBeLessThan(told.total_kg as number)
    const wrong = await selion('yield', demo(), '--season', '2025', '--crop', 'moonflower')
    expect(wrong).toMatchObject({ code: 2, error: expect.stringContaining('no crop moonflower') })
  })
})

describe('a farm of two beds', () => {
  it('is measured as its geodesics say (GeographicLib)', async () => {
    const told = await jsonOf<{ fields: Row[]; beds: Row[] }>(
      selion('measure', small(), '--on', '2024-07-01', '--json'),
    )
    const shapes = JSON.parse(await readFile(join(small(), 'beds.geojson'), 'utf8')) as FeatureCollection
    const bed = told.beds[0] as Numbers
    const polygon = new geodesic.PolygonArea.PolygonArea(geodesic.Geodesic.WGS84)
    const [ring] = (shapes.features[0]!.geometry as { coordinates: Position[][] }).coordinates
    for (const [lon, lat] of ring!.slice(1)) polygon.AddPoint(lat!, lon!)
    expect(Math.abs(bed.area_m2! / Math.abs(polygon.Compute(false, true).area!) - 1)).toBeLessThan(1e-6)
    const [south, north] = [ring![1]!, ring![2]!]
    const { s12 } = geodesic.Geodesic.WGS84.Inverse(south[1]!, south[0]!, north[1]!, north[0]!)
    expect(Math.abs(bed.length_m! / s12! - 1)).toBeLessThan(1e-6)
    expect(Math.min(bed.bearing_deg!, 180 - bed.bearing_deg!)).toBeLessThan(0.01)
    // The tomatoes stand on 20 m of a row that a support runs 0.1 m from.
    expect(told.fields[0]).toMatchObject({ bed_count: 2, support_m: { 'Post and wire': expect.closeTo(38, 0) } })
    expect(bed).toMatchObject({ climbing_m: expect.closeTo(20, 9), unheld_m: expect.closeTo(0, 9) })
  })

  it('has its picks weighed: 2 bushels of 24.04 kg, 1.5 crates of 8 kg and 3 lb', async () => {
    const told = await jsonOf<Row & { beds: Row[] }>(selion('yield', small(), '--season', '2024', '--json'))
    expect(told.total_kg).toBeCloseTo(2 * 24.04 + 1.5 * 8 + 3 * 0.45359237, 9)
    // The spot of the third is 0.5 m west of b2, so the ground within 1 m of it is b2's alone.
    expect(told.beds.map(({ id, kg }) => [id, kg])).toEqual([
      ['b1', expect.closeTo(2 * 24.04 + 1.5 * 8, 9)],
      ['b2', expect.closeTo(3 * 0.45359237, 9)],
    ])
    for (const bed of told.beds) expect(bed).toMatchObject({ gi_star: null, p: null, q: null })
  })

  it('lists beds that were not picked', async () => {
    const told = await jsonOf<Row & { beds: Row[] }>(selion('yield', small(), '--season', '2023', '--json'))
    expect(told).toMatchObject({ total_kg: 0, cells_kg: 0, kg_per_m2: null, zones: [] })
    const nothing = { kg: 0, kg_per_m2: 0, index: null, gi_star: null, p: null, q: null }
    expect(told.beds).toMatchObject(['b1', 'b2'].map((id) => ({ id, ...nothing })))
  })

  it('takes the season that holds the day where none is named', async () => {
    const [held, named] = await Promise.all([
      selion('yield', small(), '--on', '2024-12-31', '--json'),
      selion('yield', small(), '--season', '2024', '--json'),
    ])
    expect(held).toEqual(named)
    expect(JSON.parse(held.out)).toMatchObject({ total_kg: expect.closeTo(61.44, 2) })
  })

  it('prints tables for people', async () => {
    for (const words of [['check'], ['measure'], ['clearance', '--on', '2024-07-01'], ['yield', '--season', '2024']]) {
      const { code, out, error } = await selion(words[0]!, small(), ...words.slice(1))
      expect({ code, error }).toEqual({ code: 0, error: '' })
      expect(out).toMatch(/^-+( {2}-+)+$/m)
    }
  })
})

describe('a faulty archive', () => {
  const broken = () => folder('broken')
  const FAULTS: readonly (readonly [string, RegExp, string, RegExp])[] = [
    ['beds.geojson', /b2/, 'field', /f9/],
    ['beds.geojson', /b3/, '', /./],
    ['picks.csv', /line 2 \(k1\)/, 'on', /2024-02-30/],
    ['picks.csv', /line 3 \(k2\)/, 'quantity', /./],
  ]
  beforeAll(async () => {
    const beds = JSON.parse(Buffer.from(farmWith({}).get('beds.geojson')!).toString()) as FeatureCollection
    const [sound, dangling] = beds.features
    const bowTie = [
      [8.0301, 47.4101],
      [8.0302, 47.4102],
      [8.0302, 47.4101],
      [8.0301, 47.4102],
      [8.0301, 47.4101],
    ]
    const crossed = {
      type: 'Feature',
      geometry: { type: 'Polygon', coordinates: [bowTie] },
      properties: { id: 'b3', field: 'f1', name: 'Bed 3' },
    }
    const files = farmWith({
      'beds.geojson': {
        ...beds,
        features: [sound, { ...dangling, properties: { ...dangling!.properties, field: 'f9' } }, crossed],
      },
      'picks.csv': 'id,on,planting,bed,quantity,unit\nk1,2024-02-30,p1,,2,bushel\nk2,2024-08-02,,b1,-1,crate\n',
    })
    await writeFiles(broken(), files)
  })

  it('has every fault named by file, record, field and reason', async () => {
    const { code, out, error } = await selion('check', broken(), '--json')
    expect(code).toBe(1)
    const { records, faults } = JSON.parse(out) as { records: Numbers; faults: Fault[] }
    expect(records).toMatchObject({ beds: 3, picks: 2 })
    expect(keysOf(faults as unknown as Row[])).toEqual(['file', 'record', 'field', 'reason'])
    for (const [file, record, field, reason] of FAULTS) {
      const found = faults.find((fault) => fault.file === file && record.test(fault.record))
      expect(found, `${file} ${record}`).toBeDefined()
      if (field) expect(found!.field).toBe(field)
      expect(found!.reason).toMatch(reason)
      expect(error).toContain(found!.reason)
    }
    expect(error.trimEnd().split('\n')).toHaveLength(faults.length)
  })

  it.each([['measure'], ['clearance'], ['yield', '--season', '2024'], ['sql', 'select 1'], ['convert', '.zip']])(
    'ends %s with 1, the faults on standard error and nothing on standard output',
    async (command, ...words) => {
      const rest = command === 'convert' ? [`${broken()}${words[0]}`] : [...words, '--json']
      const { code, out, error } = await selion(command, broken(), ...rest)
      expect({ code, out }).toEqual({ code: 1, out: '' })
      expect(error).toMatch(/picks\.csv, line 2 \(k1\), on: /)
    },
  )

  it('has all of its faults told, however many', async () => {
    const lines = Array.from({ length: 1500 }, (_, i) => `d${i},never,b1,lime`).join('\n')
    await writeFiles(folder('many'), farmWith({ 'dressings.csv': `id,on,bed,material\n${lines}\n` }))
    const { out, error } = await selion('check', folder('many'), '--json')
    expect((JSON.parse(out) as { faults: Fault[] }).faults).toHaveLength(1500)
    expect(error.trimEnd().split('\n')).toHaveLength(1500)
  })

  it('is one that is not there, or no archive', async () => {
    await writeFiles(folder('other'), new Map([['readme.md', new Uint8Array()]]))
    for (const path of ['nowhere', 'other', 'other/readme.md']) {
      const { code, out, error } = await selion('check', folder(path), '--json')
      expect(code, path).toBe(1)
      expect((JSON.parse(out) as { faults: Fault[] }).faults).toHaveLength(1)
      expect(error).toMatch(path === 'other' ? /^farm\.json: is missing/m : new RegExp(`^${folder(path)}: `))
      expect(error).not.toBe('')
    }
  })
})

describe('a file that no archive has', () => {
  it('is told on standard error by check and convert, with the name that was likely meant', async () => {
    const files = new Map([...farmWith({ 'picks.csv': null, 'shares.csv': null })])
    files.set('pick.csv', farmWith({}).get('picks.csv')!).set('maps/soil.tif', new Uint8Array())
    await writeFiles(folder('misnamed'), files)
    const lines =
      'maps/ is not read, since no file of an archive has that name\n' +
      'pick.csv is not read, since no file of an archive has that name; did you mean picks.csv?\n'
    const checked = await selion('check', folder('misnamed'), '--json')
    expect(checked).toMatchObject({ code: 0, error: lines })
    expect(JSON.parse(checked.out)).toMatchObject({
      faults: [],
      ignored: [
        { file: 'maps/', meant: null },
        { file: 'pick.csv', meant: 'picks.csv' },
      ],
    })
    expect(await selion('convert', folder('misnamed'), folder('misnamed.zip'))).toMatchObject({ code: 0, error: lines })
  })
})

describe('wrong use', () => {
  it.each([
    [[]],
    [['weigh', 'x']],
    [['check']],
    [['check', 'x', 'y']],
    [['check', 'x', '--loud']],
    [['measure', 'x', '--on', '2025-02-29']],
    [['measure', 'x', '--on', '1 May 2025']],
    [['clearance', 'x', '--on']],
    [['yield', 'x', '--season', '25']],
    [['yield', 'x', '--cell', '0']],
    [['yield', 'x', '--cell', 'small']],
    [['sql', 'x']],
    [['sql', 'x', 'select 1', '--json', '--csv']],
    [['convert', 'x']],
    [['demo']],
    [['serve', '--port', '70000']],
  ])('ends with 2 and says how: %j', async (words) => {
    const { code, out, error } = await selion(...words)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(error).toMatch(/^selion: .+\n\n/)
    expect(error).toMatch(new RegExp(`^ +(selion )?${words[0] && words[0] !== 'weigh' ? words[0] : 'check'} `, 'm'))
  })

  it('ends the program itself with 1 or 2 through npm, with nothing on standard output', async () => {
    const nowhere = await selionByNpm('measure', folder('nowhere'), '--json')
    expect(nowhere).toMatchObject({ code: 1, out: '', error: `${folder('nowhere')}: is not there\n` })
    const wrong = await selionByNpm('measure', '--json')
    expect(wrong).toMatchObject({ code: 2, out: '', error: expect.stringMatching(/^selion: ARCHIVE is missing\n/) })
  })

  it('ends with 2 where the answer can’t be written', async () => {
    for (const words of [
      ['yield', small(), '--season', '2024', '--out', folder('no/such/surface.geojson')],
      ['convert', small(), folder('no/such/farm.zip')],
      ['convert', small(), folder('farm.odd')],
      ['demo', tmpOwnFolder()],
    ]) {
      const { code, out, error } = await selion(...words)
      expect({ words, code, out }).toEqual({ words, code: 2, out: '' })
      expect(error).toMatch(/^selion: /)
    }
  })

  /** A folder that holds other things and must not be written over. */
  const tmpOwnFolder = () => folder('')
})
