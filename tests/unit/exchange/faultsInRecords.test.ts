import { describe, expect, it } from 'vitest'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { archiveOf, box, collection, farmWith, faultsWith, feature, line, point, SOUND } from './archiveOf.ts'
import { holdFaults } from './holdFaults.ts'

const bed = (geometry: object | null, more: object = {}) =>
  collection(
    feature('b1', geometry, { field: 'f1', name: 'Bed 1', ...more }),
    feature('b2', box(8, 5, 1.2, 40), { field: 'f1', name: 'Bed 2' }),
  )
const tree = (geometry: object | null, more: object = {}) =>
  collection(feature('t1', geometry, { species: 'Juglans regia', ...more }))
describe('ids and references', () => {
  const rows = (...beds: string[]) =>
    collection(...beds.map((id, i) => feature(`r${i + 1}`, line([5.6, 6], [5.6, 44]), { bed: id })))
  holdFaults([
    [
      'an id that comes twice in CSV',
      { 'systems.csv': 'id,name\ny1,Post\ny2,Net\ny1,String\n' },
      'systems.csv',
      'line 4 (y1)',
      'id',
      /id of line 2 \(y1\) already/,
    ],
    [
      'an id that comes twice in GeoJSON',
      {
        'trees.geojson': collection(
          feature('t1', point(1, 1), { species: 'x' }),
          feature('t1', point(2, 2), { species: 'y' }),
        ),
      },
      'trees.geojson',
      'feature 2 (t1)',
      'id',
      /feature 1 \(t1\) already/,
    ],
    [
      'no id in CSV',
      { 'dressings.csv': 'id,on,bed,material\n,2024-01-01,b1,lime\n' },
      'dressings.csv',
      'line 2',
      'id',
      /missing/,
    ],
    [
      'no id in GeoJSON',
      { 'trees.geojson': collection(feature(null, point(1, 1), { species: 'x' })) },
      'trees.geojson',
      'feature 1',
      'id',
      /missing/,
    ],
    [
      'an empty id in GeoJSON',
      { 'trees.geojson': collection(feature('', point(1, 1), { species: 'x' })) },
      'trees.geojson',
      'feature 1',
      'id',
      /empty/,
    ],
    [
      'a row in no bed',
      { 'rows.geojson': rows('b1', 'b9') },
      'rows.geojson',
      'feature 2 (r2)',
      'bed',
      /"b9" is not in beds.geojson/,
    ],
    [
      'a reference with a space too many',
      { 'varieties.csv': 'id,crop,name\nv1,tomato,A\nv2,"leek ",B\n' },
      'varieties.csv',
      'line 3 (v2)',
      'crop',
      /"leek " is not in crops.csv/,
    ],
    [
      'a share of no pick',
      { 'shares.csv': 'pick,to,part\nk9,A,1\n' },
      'shares.csv',
      'line 2',
      'pick',
      /"k9" is not in picks.csv/,
    ],
    [
      'a photo whose file is not there',
      { 'photos/june.png': null },
      'photos.json',
      'photo 1 (a1)',
      'file',
      /photos\/june.png is not in the archive/,
    ],
    [
      'a photo whose file lies elsewhere',
      { 'photos.json': [{ id: 'a1', file: '../june.png' }] },
      'photos.json',
      'photo 1 (a1)',
      'file',
      /plain name/,
    ],
    [
      'a photo with three corners',
      {
        'photos.json': [
          {
            id: 'a1',
            file: 'june.png',
            corners: [
              [8, 47],
              [8, 47],
              [8, 47],
            ],
          },
        ],
      },
      'photos.json',
      'photo 1 (a1)',
      'corners',
      /./,
    ],
    [
      'a photo with swapped corners',
      {
        'photos.json': [
          {
            id: 'a1',
            file: 'june.png',
            corners: [
              [8, 147],
              [8, 147],
              [8, 147],
              [8, 147],
            ],
          },
        ],
      },
      'photos.json',
      'photo 1 (a1)',
      'corners',
      /no place on earth \(lon and lat look swapped\)/,
    ],
  ])
  // By hand, around the small farm at 8.03, 47.41.
  const UL = [8.029, 47.411]
  const UR = [8.031, 47.411]
  const LR = [8.031, 47.409]
  const LL = [8.029, 47.409]
  const photo = (corners: readonly (readonly number[])[]) => ({
    'photos.json': [{ id: 'a1', file: 'june.png', corners }],
  })
  it.each([
    ['swapped', [UL, UR, LR, LL].map(([lon, lat]) => [lat!, lon!]), /km from the rest .*\(lon and lat look swapped\)$/],
    ['far away', [UL, UR, LR, LL].map(([lon, lat]) => [lon! + 20, lat!]), /km from the rest of the farm$/],
    ['beyond ±180', [UL, UR, LR, LL].map(([lon, lat]) => [lon! + 360, lat!]), /longitude outside ±180/],
    ['all in one place', [UL, UL, UL, UL], /corners 1 and 2 are both at \[8.029,47.411\]/],
    ['two of them in one place', [UL, UR, LR, UR], /corners 2 and 4 are both at/],
    ['crossing', [UL, LR, UR, LL], /cross/],
    ['three in one line', [UL, UR, [8.03, 47.41], LL], /three in one line/],
    ['one inside', [UL, UR, [8.0295, 47.4105], LL], /lies inside the other three/],
  ])('a photo with corners %s', (_, corners, reason) => {
    expect(faultsWith(photo(corners))).toEqual([
      { file: 'photos.json', record: 'photo 1 (a1)', field: 'corners', reason: expect.stringMatching(reason) },
    ])
  })
  it('a photo lies well turned, mirrored, large, or across the 180th meridian as either is written', () => {
    const wide = [UL, UR, LR, LL].map(([lon, lat], i) => [lon! + (i % 3 === 0 ? -2 : 2), lat! + (i < 2 ? 2 : -2)])
    for (const corners of [[LR, LL, UL, UR], [UR, UL, LL, LR], wide]) expect(faultsWith(photo(corners))).toEqual([])
    const farm = { 'farm.json': { format: 'selion-farm', version: 1, name: 'F', origin: [180, 47] } }
    for (const east of [180.01, -179.99]) {
      const corners = [
        [179.99, 47.01],
        [east, 47.01],
        [east, 46.99],
        [179.99, 46.99],
      ]
      const files = { ...farm, 'photos/june.png': SOUND['photos/june.png']!, ...photo(corners) }
      expect(readArchive(archiveOf(files)).faults).toEqual([])
    }
  })
  it.each([
    ['PNG', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
    ['JPEG', [0xff, 0xd8, 0xff, 0xe0]],
    ['TIFF', [0x49, 0x49, 0x2a, 0, 8, 0, 0, 0]],
    ['TIFF, its high bytes first', [0x4d, 0x4d, 0, 0x2a, 0, 0, 0, 8]],
    ['BigTIFF', [0x49, 0x49, 0x2b, 0, 8, 0, 0, 0]],
    ['WebP', [...'RIFF\0\0\0\0WEBP'].map((one) => one.charCodeAt(0))],
  ])('a photo that begins as a %s does is a picture', (_, bytes) => {
    expect(faultsWith({ 'photos/june.png': new Uint8Array(bytes) })).toEqual([])
  })
  it.each(['not a picture', '', 'RIFF    WAVE', '<svg/>'])('a photo of the bytes %j is none', (text) => {
    expect(faultsWith({ 'photos/june.png': text })).toEqual([
      {
        file: 'photos.json',
        record: 'photo 1 (a1)',
        field: 'file',
        reason: 'photos/june.png is no picture that can be shown (PNG, JPEG, WebP or TIFF)',
      },
    ])
  })
  it('a file that can not be read makes no faults of those that refer to it, and leaves them out', () => {
    const reading = readArchive(farmWith({ 'crops.csv': 'id;name;family\n' }))
    expect(new Set(reading.faults.map((fault) => fault.file))).toEqual(new Set(['crops.csv']))
    expect(reading.leftOut.find((one) => one.file === 'varieties.csv')!.reason).toMatch(
      /"tomato", and crops.csv could not be read/,
    )
    expect(reading.content!.records.has('plantings')).toBe(false)
    expect(reading.content!.records.has('beds')).toBe(true)
  })
})

describe('records beside each other', () => {
  const planting = (line: string) => ({
    'plantings.csv': `id,row,bed,variety,from_m,to_m,set_out,cleared\np1,r1,,v1,,,2024-05-10,\n${line}\n`,
  })
  const pick = (line: string) => ({
    'picks.csv': `id,on,planting,bed,lon,lat,quantity,unit\nk1,2024-08-01,p1,,,,2,kg\n${line}\n`,
  })
  holdFaults([
    [
      'a bed retired before it was made',
      { 'beds.geojson': bed(box(5, 5, 1.2, 40), { made: '2024-01-02', retired: '2024-01-01' }) },
      'beds.geojson',
      'feature 1 (b1)',
      'retired',
      /before made/,
    ],
    [
      'a tree removed before it was planted',
      { 'trees.geojson': tree(point(1, 1), { planted: '2000-01-01', removed: '1999-12-31' }) },
      'trees.geojson',
      'feature 1 (t1)',
      'removed',
      /before planted/,
    ],
    [
      'a support taken down before it was put up',
      {
        'supports.geojson': collection(
          feature('s1', line([1, 1], [2, 2]), { system: 'y1', put_up: '2024-05-01', taken_down: '2024-04-30' }),
        ),
      },
      'supports.geojson',
      'feature 1 (s1)',
      'taken_down',
      /before put_up/,
    ],
    [
      'a planting cleared before it was set out',
      planting('p2,r2,,v1,,,2024-05-10,2024-05-09'),
      'plantings.csv',
      'line 3 (p2)',
      'cleared',
      /2024-05-09 is before set_out, 2024-05-10/,
    ],
    [
      'a stretch that ends before it begins',
      planting('p2,r2,,v1,8,7,2024-05-10,'),
      'plantings.csv',
      'line 3 (p2)',
      'to_m',
      /7 is not beyond from_m, 8/,
    ],
    [
      'a stretch without length',
      planting('p2,r2,,v1,8,8,2024-05-10,'),
      'plantings.csv',
      'line 3 (p2)',
      'to_m',
      /not beyond/,
    ],
    [
      'a planting in neither row nor bed',
      planting('p2,,,v1,,,2024-05-10,'),
      'plantings.csv',
      'line 3 (p2)',
      'row',
      /missing, and so is bed/,
    ],
    [
      'a planting whose row lies in another bed',
      planting('p2,r2,b1,v1,,,2024-05-10,'),
      'plantings.csv',
      'line 3 (p2)',
      'bed',
      /"b1", but its row "r2" lies in bed "b2"/,
    ],
    [
      'a pick without a place',
      pick('k2,2024-08-01,,,,,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'planting',
      /one place must be given/,
    ],
    [
      'a pick with two places',
      pick('k2,2024-08-01,p1,b1,,,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'bed',
      /beside planting/,
    ],
    [
      'a pick with a longitude only',
      pick('k2,2024-08-01,,,8.03,,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'lat',
      /missing beside lon/,
    ],
    [
      'a pick with a latitude only',
      pick('k2,2024-08-01,,,,47.41,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'lon',
      /missing beside lat/,
    ],
    [
      'a pick off the earth',
      pick('k2,2024-08-01,,,188.03,47.41,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'lon',
      /188.03, outside ±180/,
    ],
    [
      'a pick with lon and lat swapped',
      pick('k2,2024-08-01,,,47.41,8.03,1,kg'),
      'picks.csv',
      'line 3 (k2)',
      'lon',
      /look swapped/,
    ],
    [
      'a unit without a weight',
      pick('k2,2024-08-01,p1,,,,1,basket'),
      'picks.csv',
      'line 3 (k2)',
      'unit',
      /"basket" has no weight for crop "tomato" \(Tomato\)/,
    ],
    [
      'a bushel of a crop without one',
      { ...planting('p2,r2,,v2,,,2024-05-10,'), ...pick('k2,2024-08-01,p2,,,,1,bushel') },
      'picks.csv',
      'line 3 (k2)',
      'unit',
      /"bushel" has no weight for crop "leek"/,
    ],
    [
      'a bushel of no known crop',
      pick('k2,2024-08-01,,b1,,,1,bushel'),
      'picks.csv',
      'line 3 (k2)',
      'unit',
      /"bushel" has no weight for every crop/,
    ],
    [
      'shares above the whole',
      { 'shares.csv': 'pick,to,part\nk1,A,0.6\nk2,B,1\nk1,C,0.5\n' },
      'shares.csv',
      'line 4',
      'part',
      /"k1" to 1.1, above the whole/,
    ],
    [
      'a container with two weights',
      { 'containers.csv': 'unit,kg,crop\ncrate,8,\nbushel,24,tomato\ncrate,9,\n' },
      'containers.csv',
      'line 4',
      'unit',
      /every crop on line 2 already/,
    ],
    [
      'a pound of another weight',
      { 'containers.csv': 'unit,kg,crop\ncrate,8,\nbushel,24,tomato\nlb,0.5,\n' },
      'containers.csv',
      'line 4',
      'unit',
      /0.45359237 kg always/,
    ],
    [
      'a stock lot in no place',
      { 'stock_lots.csv': 'id,kind,bed,row,count\nl1,walnut,b2,,100\nl2,fig,,,3\n' },
      'stock_lots.csv',
      'line 3 (l2)',
      'bed',
      /missing, and so is row/,
    ],
    [
      'more sold than there were',
      { 'stock_moves.csv': 'id,lot,on,move,count\nm1,l1,2024-01-01,sold,60\nm2,l1,2024-01-02,lost,41\n' },
      'stock_moves.csv',
      'line 3 (m2)',
      'count',
      /101, of 100/,
    ],
    [
      'more lifted than there were',
      { 'stock_moves.csv': 'id,lot,on,move,count\nm1,l1,2024-01-01,lifted,101\n' },
      'stock_moves.csv',
      'line 2 (m1)',
      'count',
      /lifted of lot "l1" to 101, of 100/,
    ],
    [
      'more reserved than there are',
      { 'stock_moves.csv': 'id,lot,on,move,count\nm1,l1,2024-01-01,reserved,101\n' },
      'stock_moves.csv',
      'line 2 (m1)',
      'count',
      /holds 100/,
    ],
  ])
  it('a pick in a container whose weight is faulty has no fault of its own, and is left out', () => {
    const files = { 'containers.csv': 'unit,kg,crop\ncrate,-8,\nbushel,24,tomato\n' }
    expect(faultsWith(files).map((fault) => fault.file)).toEqual(['containers.csv'])
    const { content, leftOut } = readArchive(farmWith(files))
    expect(content!.records.get('picks')!.map((pick) => pick.id)).toEqual(['k1', 'k3'])
    expect(leftOut.at(-1)).toEqual({
      file: 'picks.csv',
      record: 'line 3 (k2)',
      field: 'unit',
      reason: 'is "crate", and the container that would weigh it was left out',
    })
  })
  it('shares of tenths that come to one by rounding are sound', () => {
    const tenths = Array.from({ length: 10 }, () => 'k1,A,0.1').join('\n')
    expect(faultsWith({ 'shares.csv': `pick,to,part\n${tenths}\n` })).toEqual([])
  })
})
