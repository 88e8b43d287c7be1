import { describe, expect, it } from 'vitest'
import type { Fault } from '../../../geo/exchange/archive.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { archiveOf, box, collection, farmWith, faultsWith, feature, point, SOUND } from './archiveOf.ts'

const bed = (geometry: object | null, more: object = {}) =>
  collection(
    feature('b1', geometry, { field: 'f1', name: 'Bed 1', ...more }),
    feature('b2', box(8, 5, 1.2, 40), { field: 'f1', name: 'Bed 2' }),
  )
const bytes = (...parts: (string | number[])[]) =>
  new Uint8Array(parts.flatMap((part) => (typeof part === 'string' ? [...new TextEncoder().encode(part)] : part)))

describe('a sound archive', () => {
  it('has no faults, and every record of every file', () => {
    const { faults, counts, content, leftOut, ignored } = readArchive(archiveOf(SOUND))
    expect(faults).toEqual([])
    expect(leftOut).toEqual([])
    expect(ignored).toEqual([])
    expect(counts).toMatchObject({ fields: 1, beds: 2, rows: 2, picks: 3, shares: 2, stock_moves: 3, photos: 1 })
    expect(Object.values(counts).reduce((a, b) => a + b)).toBe([...content!.records.values()].flat().length)
  })
  it('needs nothing but farm.json', () => {
    const { faults, content } = readArchive(archiveOf({ 'farm.json': SOUND['farm.json']! }))
    expect(faults).toEqual([])
    expect(content!.records.size).toBe(0)
    expect(content!.farm).toMatchObject({ units: 'metric', season_start_month: 1, origin_lon: 8.03, origin_lat: 47.41 })
  })
  it('may lie in one top folder', () => {
    const moved = new Map([...archiveOf(SOUND)].map(([path, given]) => [`my farm/${path}`, given]))
    expect(readArchive(moved).counts).toEqual(readArchive(archiveOf(SOUND)).counts)
  })
  it('may be in CRLF, with a byte order mark, in any case of yes and no', () => {
    const crops = bytes(
      [0xef, 0xbb, 0xbf],
      'id,name,family,climbs\r\ntomato,Tomato,Solanaceae,YES\r\nleek,Leek,Amaryllidaceae,False\r\n',
    )
    const { faults, content } = readArchive(farmWith({ 'crops.csv': crops }))
    expect(faults).toEqual([])
    expect(content!.records.get('crops')!.map((crop) => crop.climbs)).toEqual([true, false])
  })
  it('may give its GeoJSON a byte order mark, whatever winding, and ids that are numbers', () => {
    const geometry = box(5, 5, 1.2, 40) as { coordinates: number[][][] }
    const reversed = { type: 'Polygon', coordinates: [[...geometry.coordinates[0]!].reverse()] }
    const beds = JSON.stringify({
      ...collection({ type: 'Feature', id: 7, geometry: reversed, properties: { field: 'f1', name: 3 } }),
    })
    const { faults, content } = readArchive(
      archiveOf({
        'farm.json': SOUND['farm.json']!,
        'fields.geojson': SOUND['fields.geojson']!,
        'beds.geojson': `\ufeff${beds}`,
      }),
    )
    expect(faults).toEqual([])
    expect(content!.records.get('beds')![0]).toMatchObject({ id: '7', name: '3', geom: reversed })
  })
})

describe('many faults', () => {
  it('are all told, each by its own record', () => {
    const faults = faultsWith({
      'trees.geojson': collection(
        feature('t1', null, { species: 'x', planted: 'spring', height_m: -1 }),
        feature(null, point(1, 1), {}),
      ),
      'picks.csv': 'id,on,bed,quantity,unit\nk1,2024-13-01,b9,-1,sack\n',
    })
    const told = (fault: Fault) => `${fault.file} ${fault.record}: ${fault.field}`
    expect(faults.map(told).sort()).toEqual([
      'picks.csv line 2 (k1): bed',
      'picks.csv line 2 (k1): on',
      'picks.csv line 2 (k1): quantity',
      'picks.csv line 2 (k1): unit',
      'trees.geojson feature 1 (t1): geometry',
      'trees.geojson feature 1 (t1): height_m',
      'trees.geojson feature 1 (t1): planted',
      'trees.geojson feature 2: id',
      'trees.geojson feature 2: species',
    ])
  })
  it('beyond a thousand of a file are counted', () => {
    const lines = Array.from({ length: 1500 }, (_, i) => `d${i},never,b1,lime`).join('\n')
    const faults = faultsWith({ 'dressings.csv': `id,on,bed,material\n${lines}\n` })
    expect(faults).toHaveLength(1001)
    expect(faults.at(-1)).toEqual({
      file: 'dressings.csv',
      record: '',
      field: '',
      reason: 'and 500 more faults in this file',
    })
    const all = readArchive(farmWith({ 'dressings.csv': `id,on,bed,material\n${lines}\n` }), Number.POSITIVE_INFINITY)
    expect(all.faults).toHaveLength(1500)
  })
  it('leave out what refers to what is left out, each named with why', () => {
    const { content, faults, leftOut } = readArchive(farmWith({ 'beds.geojson': bed(null) }))
    expect(faults).toHaveLength(1)
    const why = Object.fromEntries(leftOut.map((one) => [`${one.file} ${one.record}`, one.reason]))
    expect(why).toMatchObject({
      'beds.geojson feature 1 (b1)': 'is missing',
      'rows.geojson feature 1 (r1)': 'refers to "b1", and it was left out',
      'plantings.csv line 2 (p1)': 'refers to "r1", and it was left out',
      'picks.csv line 2 (k1)': 'refers to "p1", and it was left out',
      'shares.csv line 2': 'refers to "k1", and it was left out',
    })
    expect(content!.records.get('beds')!.map((one) => one.id)).toEqual(['b2'])
    expect(content!.records.get('plantings')!.map((one) => one.id)).toEqual(['p2'])
    expect(content!.records.get('picks')!.map((one) => one.id)).toEqual(['k3'])
  })
})

describe('an origin far from all the rest', () => {
  const farm = (origin: number[]) => ({ 'farm.json': { format: 'selion-farm', version: 1, name: 'F', origin } })
  it.each([
    ['swapped', [47.41, 8.03], /^\[47.41, 8.03\] lies \d+ km from the rest of the farm \(lon and lat look swapped\)$/],
    ['elsewhere', [-120, 40], /^\[-120, 40\] lies \d+ km from the rest of the farm$/],
  ])('is the one fault: %s', (_, origin, reason) => {
    const { faults, content, origin: middle } = readArchive(farmWith(farm(origin)))
    expect(faults).toEqual([
      { file: 'farm.json', record: 'farm', field: 'origin', reason: expect.stringMatching(reason) },
    ])
    expect(content).toBeNull()
    // The middle of the one field, 60 m square from its south-west corner.
    expect(middle![0]).toBeCloseTo(8.0304, 4)
    expect(middle![1]).toBeCloseTo(47.4103, 4)
  })
  it('does not hide a record that lies elsewhere than the rest', () => {
    const swapped = { type: 'Point', coordinates: [47.41, 8.03] }
    const told = faultsWith({
      ...farm([-120, 40]),
      'trees.geojson': collection(feature('t1', swapped, { species: 'Juglans nigra' })),
    })
    expect(told.map(({ file, field }) => `${file} ${field}`)).toEqual(['farm.json origin', 'trees.geojson geometry'])
    expect(told[1]!.reason).toMatch(/look swapped/)
  })
  it('leaves each record told where one of them lies near', () => {
    const told = faultsWith({
      'beds.geojson': bed(null),
      ...farm([47.41, 8.03]),
      'trees.geojson': collection(feature('t1', { type: 'Point', coordinates: [47.41, 8.03] }, { species: 'x' })),
    })
    expect(told.some(({ file }) => file === 'farm.json')).toBe(false)
    expect(told.filter(({ reason }) => /look swapped/.test(reason)).length).toBeGreaterThan(3)
  })
})

describe('what is left out', () => {
  const told = (files: Parameters<typeof farmWith>[0]) => {
    const { leftOut, lost, content } = readArchive(farmWith({ 'shares.csv': null, ...files }))
    return { leftOut, lost, picks: content!.records.get('picks')?.length ?? 0 }
  }
  const HEAD = 'id,on,bed,quantity,unit,note\n'
  const PICK = ',2024-08-01,b1,2,kg,'
  it('is a whole file that is not UTF-8', () => {
    const latin = bytes(`${HEAD}k1${PICK}\nk2${PICK}ros`, [0xe9], `\nk3${PICK}\n`)
    const { leftOut, lost, picks } = told({ 'picks.csv': latin })
    expect(picks).toBe(0)
    expect(leftOut).toEqual([
      { file: 'picks.csv', record: 'line 3', field: '', reason: expect.stringMatching(/^is not UTF-8/) },
    ])
    expect(lost).toEqual(leftOut)
  })
  it('is a whole file that is no GeoJSON, and what belongs to it', () => {
    const { leftOut } = told({ 'rows.geojson': '[]', 'picks.csv': null })
    expect(leftOut.map(({ file, record }) => `${file} ${record}`)).toEqual([
      'rows.geojson ',
      'plantings.csv line 2 (p1)',
    ])
  })
  it('is every line that a quote takes, to the last', () => {
    const lines = Array.from({ length: 9 }, (_, i) => `k${i + 3}${PICK}`).join('\n')
    const text = `${HEAD}k1${PICK}\nk2${PICK}"ripe\n${lines}\n`
    const { leftOut, picks } = told({ 'picks.csv': text })
    expect(picks).toBe(1)
    expect(leftOut).toEqual([
      { file: 'picks.csv', record: 'lines 3–12', field: '', reason: expect.stringMatching(/never closed/) },
    ])
  })
  it('is all of a file beyond the faults that are listed', () => {
    const lines = Array.from({ length: 1500 }, (_, i) => `k${i},2024-08-01,b1,2,kg,a"b`).join('\n')
    expect(told({ 'picks.csv': `${HEAD}${lines}\n` }).leftOut).toHaveLength(1500)
  })
  it('is a file whose name is written in another case', () => {
    const { leftOut } = told({ 'picks.csv': null, 'Picks.CSV': `${HEAD}k1${PICK}\n` })
    expect(leftOut.map(({ file }) => file)).toEqual(['Picks.CSV'])
  })
})

describe('what the format does not know', () => {
  it('is kept, names that objects are born with included', () => {
    const { content, faults } = readArchive(
      farmWith({
        'farm.json':
          '{"format":"selion-farm","version":1,"name":"F","origin":[8.03,47.41],"__proto__":{"a":1},"acres":3}',
        'systems.csv': 'id,name,__proto__,constructor,empty\ny1,Post,x,y,\n',
        'trees.geojson': `{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[8.03,47.41]},"properties":{"id":"t1","species":"x","__proto__":7,"tags":{"b":[1,null,true]},"nothing":null}}]}`,
      }),
    )
    expect(faults).toEqual([])
    expect(Object.entries(content!.farm.extra)).toEqual([
      ['__proto__', { a: 1 }],
      ['acres', 3],
    ])
    expect(Object.entries(content!.records.get('systems')![0]!.extra)).toEqual([
      ['__proto__', 'x'],
      ['constructor', 'y'],
    ])
    expect(Object.entries(content!.records.get('trees')![0]!.extra)).toEqual([
      ['__proto__', 7],
      ['tags', { b: [1, null, true] }],
      ['nothing', null],
    ])
  })
  it('and files of other names are passed over and listed', () => {
    const { faults, ignored } = readArchive(farmWith({ 'README.txt': 'hello', 'maps/soil.csv': 'a' }))
    expect(faults).toEqual([])
    expect(ignored).toEqual(['README.txt', 'maps/soil.csv'])
  })
})
