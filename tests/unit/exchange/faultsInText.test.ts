import { describe, expect, it } from 'vitest'
import { collection, faultsWith, feature, point, SOUND } from './archiveOf.ts'
import { holdFaults } from './holdFaults.ts'

const tree = (geometry: object | null, more: object = {}) =>
  collection(feature('t1', geometry, { species: 'Juglans regia', ...more }))
const bytes = (...parts: (string | number[])[]) =>
  new Uint8Array(parts.flatMap((part) => (typeof part === 'string' ? [...new TextEncoder().encode(part)] : part)))

describe('the farm itself', () => {
  const farm = (more: object) => ({ 'farm.json': { ...(SOUND['farm.json'] as object), ...more } })
  holdFaults([
    ['is missing', { 'farm.json': null }, 'farm.json', '', '', /missing/],
    [
      'is no JSON',
      { 'farm.json': '{"format": "selion-farm",}' },
      'farm.json',
      'line 1, column 26',
      '',
      /name in quotes/,
    ],
    ['is a list', { 'farm.json': [] }, 'farm.json', '', '', /object/],
    ['is of another format', farm({ format: 'farm' }), 'farm.json', 'farm', 'format', /"farm"/],
    ['is of a newer version', farm({ version: 2 }), 'farm.json', 'farm', 'version', /newer Selion/],
    ['has its version as text', farm({ version: '1' }), 'farm.json', 'farm', 'version', /"1"/],
    ['has no name', farm({ name: undefined }), 'farm.json', 'farm', 'name', /missing/],
    [
      'has unknown units',
      farm({ units: 'imperial' }),
      'farm.json',
      'farm',
      'units',
      /"imperial" is none of metric, us/,
    ],
    ['has a thirteenth month', farm({ seasonStartMonth: 13 }), 'farm.json', 'farm', 'seasonStartMonth', /13/],
    ['has a swapped origin', farm({ origin: [47.41, 98.03] }), 'farm.json', 'farm', 'origin', /swapped/],
    ['has an origin off the earth', farm({ origin: [181, 47] }), 'farm.json', 'farm', 'origin', /±180/],
    ['has an origin of one number', farm({ origin: [8] }), 'farm.json', 'farm', 'origin', /\[lon, lat\]/],
    [
      'keeps a number too large',
      { 'farm.json': '{"format":"selion-farm","version":1,"name":"F","origin":[8.03,47.41],"acres":1e999}' },
      'farm.json',
      'farm',
      'acres',
      /too large/,
    ],
    [
      'has a file named in capitals',
      { 'Beds.GeoJSON': collection() },
      'Beds.GeoJSON',
      '',
      '',
      /must be written beds.geojson/,
    ],
  ])
})

describe('encodings', () => {
  const crops = 'id,name,family\ntomato,Tomate,Solanaceae\nleek,'
  holdFaults([
    [
      'Latin-1',
      { 'crops.csv': bytes(crops, 'Bl', [0xe9], ',x\n') },
      'crops.csv',
      'line 3',
      '',
      /not UTF-8 \(byte 0xE9.*Latin-1/,
    ],
    [
      'UTF-16 with its mark',
      {
        'crops.csv': bytes(
          [0xff, 0xfe],
          [...crops].flatMap((c) => [c.charCodeAt(0), 0]),
        ),
      },
      'crops.csv',
      '',
      '',
      /UTF-16/,
    ],
    [
      'UTF-16 without a mark',
      { 'crops.csv': bytes([...crops].flatMap((c) => [0, c.charCodeAt(0)])) },
      'crops.csv',
      '',
      '',
      /UTF-16/,
    ],
    [
      'a surrogate in UTF-8',
      { 'crops.csv': bytes(crops, [0xed, 0xa0, 0x80], ',x\n') },
      'crops.csv',
      'line 3',
      '',
      /not UTF-8/,
    ],
    ['an overlong slash', { 'crops.csv': bytes(crops, [0xc0, 0xaf], ',x\n') }, 'crops.csv', 'line 3', '', /not UTF-8/],
    [
      'GeoJSON in Latin-1',
      { 'trees.geojson': bytes('{"type":"FeatureCollection",\n"features":[],"name":"b', [0xe4], 'ume"}') },
      'trees.geojson',
      'line 2',
      '',
      /not UTF-8/,
    ],
    [
      'half a surrogate pair in JSON',
      { 'trees.geojson': JSON.stringify(tree(point(1, 1), { name: 'X' })).replace('"X"', '"\\ud800"') },
      'trees.geojson',
      'feature 1 (t1)',
      'name',
      /surrogate/,
    ],
    [
      'a NUL in JSON',
      { 'trees.geojson': tree(point(1, 1), { name: 'a\0b' }) },
      'trees.geojson',
      'feature 1 (t1)',
      'name',
      /NUL/,
    ],
    [
      'a NUL in a property of their own',
      { 'trees.geojson': tree(point(1, 1), { own: { deep: ['a\0b'] } }) },
      'trees.geojson',
      'feature 1 (t1)',
      'own',
      /NUL/,
    ],
    ['a NUL in CSV', { 'systems.csv': 'id,name,own\ny1,Post,a\0b\n' }, 'systems.csv', 'line 2 (y1)', 'own', /NUL/],
  ])
})

describe('CSV', () => {
  holdFaults([
    ['has no header', { 'dressings.csv': '' }, 'dressings.csv', '', '', /no header/],
    [
      'lacks a required column',
      { 'dressings.csv': 'id,on,material\nd1,2024-01-01,lime\n' },
      'dressings.csv',
      'line 1',
      'bed',
      /not in the header/,
    ],
    [
      'writes a column otherwise',
      { 'dressings.csv': 'id,on, Bed,material\nd1,2024-01-01,b1,lime\n' },
      'dressings.csv',
      'line 1',
      'bed',
      /there is " Bed"/,
    ],
    [
      'names a column twice',
      { 'dressings.csv': 'id,on,bed,material,bed\nd1,2024-01-01,b1,lime,b1\n' },
      'dressings.csv',
      'line 1',
      'bed',
      /twice/,
    ],
    [
      'has a column without a name',
      { 'dressings.csv': 'id,on,bed,material,\nd1,2024-01-01,b1,lime,x\n' },
      'dressings.csv',
      'line 1',
      '',
      /column 5 has no name/,
    ],
    [
      'has a line that is too short',
      { 'dressings.csv': 'id,on,bed,material\nd1,2024-01-01,b1\n' },
      'dressings.csv',
      'line 2 (d1)',
      '',
      /3 cells.*4/,
    ],
    [
      'has a line that is too long',
      { 'dressings.csv': 'id,on,bed,material\n\nd1,2024-01-01,b1,lime,2\n' },
      'dressings.csv',
      'line 3 (d1)',
      '',
      /5 cells.*4/,
    ],
    [
      'has a quote that is never closed',
      { 'dressings.csv': 'id,on,bed,material\nd1,2024-01-01,b1,"lime\n' },
      'dressings.csv',
      'line 2',
      '',
      /never closed/,
    ],
    [
      'has a quote in a bare cell',
      { 'dressings.csv': 'id,on,bed,material\nd1,2024-01-01,b1,5" chips\n' },
      'dressings.csv',
      'line 2',
      '',
      /quote inside cell 4/,
    ],
    [
      'has text behind a closing quote',
      { 'dressings.csv': 'id,on,bed,material\nd1,2024-01-01,b1,"lime"s\n' },
      'dressings.csv',
      'line 2',
      '',
      /behind the closing quote of cell 4/,
    ],
  ])
  it('has its cells parted by semicolons', () => {
    const faults = faultsWith({ 'dressings.csv': 'id;on;bed;material\nd1;2024-01-01;b1;lime\n' })
    expect(faults.map((fault) => fault.field)).toEqual(['id', 'on', 'bed', 'material'])
    expect(faults[0]!.reason).toMatch(/semicolons/)
  })
  const dressing = (on: string, kg: string, raw: string) => ({
    'dressings.csv': `id,on,bed,material,kg_per_m2,raw_manure\nd1,${on},b1,lime,${kg},${raw}\n`,
  })
  holdFaults([
    [
      'a day that is none',
      dressing('2023-02-29', '1', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'on',
      /"2023-02-29" is not a calendar day/,
    ],
    [
      'a day in another order',
      dressing('01/02/2023', '1', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'on',
      /"01\/02\/2023".*YYYY-MM-DD/,
    ],
    ['a day with a time', dressing('2023-02-01T10:00', '1', 'no'), 'dressings.csv', 'line 2 (d1)', 'on', /YYYY-MM-DD/],
    ['no day', dressing('', '1', 'no'), 'dressings.csv', 'line 2 (d1)', 'on', /missing/],
    [
      'a comma for the point',
      dressing('2023-02-01', '"1,5"', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'kg_per_m2',
      /write it with a point: 1.5/,
    ],
    ['NaN', dressing('2023-02-01', 'NaN', 'no'), 'dressings.csv', 'line 2 (d1)', 'kg_per_m2', /"NaN" is not a number/],
    ['infinity', dressing('2023-02-01', 'Infinity', 'no'), 'dressings.csv', 'line 2 (d1)', 'kg_per_m2', /not a number/],
    [
      'a number beyond doubles',
      dressing('2023-02-01', '1e999', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'kg_per_m2',
      /finite/,
    ],
    [
      'a hexadecimal number',
      dressing('2023-02-01', '0x10', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'kg_per_m2',
      /not a number/,
    ],
    [
      'a number with its unit',
      dressing('2023-02-01', '3 kg', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'kg_per_m2',
      /not a number/,
    ],
    [
      'a quantity below zero',
      dressing('2023-02-01', '-0.1', 'no'),
      'dressings.csv',
      'line 2 (d1)',
      'kg_per_m2',
      /below zero/,
    ],
    [
      'neither yes nor no',
      dressing('2023-02-01', '1', '0'),
      'dressings.csv',
      'line 2 (d1)',
      'raw_manure',
      /neither yes nor no/,
    ],
    [
      'a count that is not whole',
      { 'stock_lots.csv': 'id,kind,bed,count\nl1,walnut,b2,99.5\n' },
      'stock_lots.csv',
      'line 2 (l1)',
      'count',
      /whole/,
    ],
    [
      'a count beyond the database',
      { 'stock_lots.csv': 'id,kind,bed,count\nl1,walnut,b2,3e9\n' },
      'stock_lots.csv',
      'line 2 (l1)',
      'count',
      /above 2000000000/,
    ],
    [
      'a pick of nothing',
      { 'picks.csv': 'id,on,bed,quantity,unit\nk1,2024-08-01,b1,0,kg\n' },
      'picks.csv',
      'line 2 (k1)',
      'quantity',
      /above zero/,
    ],
    ['a part above the whole', { 'shares.csv': 'pick,to,part\nk1,A,1.5\n' }, 'shares.csv', 'line 2', 'part', /above 1/],
    [
      'a word that is none of the known',
      { 'stock_moves.csv': 'id,lot,on,move,count\nm1,l1,2024-01-01,given,1\n' },
      'stock_moves.csv',
      'line 2 (m1)',
      'move',
      /none of reserved, sold, lifted, lost/,
    ],
  ])
})
