import type { Geometry, Position } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { Fault } from '../../geo/exchange/archive.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import type { Database } from '../../geo/store/database.ts'
import {
  archiveOf,
  at,
  box,
  collection,
  farmWith,
  feature,
  type Given,
  HERE,
  line,
  SOUND,
} from '../unit/exchange/archiveOf.ts'
import { emptyFarm } from './emptyFarm.ts'
import { openTestDatabase, SERVER_ABSENT, useDatabase } from './harness.ts'

const told = (faults: readonly Fault[]) => faults.map((one) => `${one.file} ${one.record} ${one.field}: ${one.reason}`)
const farms = async (db: Database) => (await db.rows<{ n: number }>('select count(*) as n from farm'))[0]!.n

/** Loads a changed farm and takes it away again; all have one origin, so one plane serves. */
async function loadAnd(db: Database, files: Readonly<Record<string, Given | null>>, partial = false) {
  const loading = await loadReading(db, readArchive(farmWith(files)), { partial })
  const kept = await farms(db)
  const content = kept > 0 ? await readContent(db, new Map()) : null
  await emptyFarm(db)
  return { ...loading, kept, content }
}

const beds = (b1: Geometry, more: object = {}) =>
  collection(
    feature('b1', b1, { field: 'f1', name: 'Bed 1', ...more }),
    feature('b2', box(8, 5, 1.2, 40), { field: 'f1', name: 'Bed 2' }),
  )
const rows = (r1: Geometry, more: object = {}) =>
  collection(feature('r1', r1, { bed: 'b1', ...more }), feature('r2', line([8.6, 6], [8.6, 44]), { bed: 'b2' }))
const plantings = (from: number | '', to: number | '') =>
  `id,row,bed,variety,from_m,to_m,set_out\np1,r1,,v1,${from},${to},2024-05-10\np2,,b2,v2,,,2024-04-01\n`
const inBed = (from: number | '', to: number | '') =>
  `id,row,bed,variety,from_m,to_m,set_out\np1,r1,,v1,,,2024-05-10\np2,,b2,v2,${from},${to},2024-04-01\n`

describe.skipIf(SERVER_ABSENT)('loading an archive', () => {
  const farm = useDatabase()

  it('puts every record in, the same as it was read', async () => {
    const reading = readArchive(archiveOf(SOUND))
    const { loaded, faults, leftOut } = await loadReading(farm.db, reading, { partial: false })
    expect([faults, leftOut]).toEqual([[], []])
    expect(loaded).toEqual(reading.counts)
    const { photos: _, ...content } = reading.content!
    const { photos, ...kept } = await readContent(farm.db, reading.content!.photos)
    expect(kept).toStrictEqual(content)
    expect(photos).toBe(reading.content!.photos)
    await expect(loadReading(farm.db, reading, { partial: false })).rejects.toThrow(/"Invented farm" already/)
    await emptyFarm(farm.db)
  })

  it('tells all faults of the plane at once, beside those of the files, and loads nothing', async () => {
    const crossing = {
      type: 'Polygon',
      coordinates: [[at(0, 0), at(60, 60), at(60, 0), at(0, 60), at(0, 0)]],
    } as Geometry
    const { loaded, faults, kept } = await loadAnd(farm.db, {
      'fields.geojson': collection(
        feature('f1', box(0, 0, 60, 60), { name: 'Upper' }),
        feature('f2', crossing, { name: 'X' }),
      ),
      'beds.geojson': beds(box(5, 30, 1.2, 40), { made: '2024-13-01' }),
      'plantings.csv': plantings(0, 39),
      'structures.geojson': collection(feature('w1', crossing, { kind: 'shed' })),
    })
    expect([loaded, kept]).toEqual([null, 0])
    expect(told(faults)).toEqual([
      expect.stringMatching(
        /^fields.geojson feature 2 \(f2\) geometry: has an outline that crosses itself at 8.03\d+, 47.41\d+/,
      ),
      'beds.geojson feature 1 (b1) made: "2024-13-01" is not a calendar day written YYYY-MM-DD',
      expect.stringMatching(/^beds.geojson feature 1 \(b1\) geometry: leaves its field "f1" by (9.9\d|10.0\d) m/),
      expect.stringMatching(/^rows.geojson feature 1 \(r1\) geometry: leaves its bed "b1" by 2[34].\d\d m/),
      expect.stringMatching(/^structures.geojson feature 1 \(w1\) geometry: has an outline that crosses itself/),
      expect.stringMatching(/^plantings.csv line 2 \(p1\) to_m: is 39, but its row "r1" is 3[78].\d\d m long/),
    ])
  })

  it('loads what is sound where that is asked, and names what it left out', async () => {
    const { loaded, faults, leftOut, content } = await loadAnd(
      farm.db,
      { 'beds.geojson': beds(box(5, 30, 1.2, 40)) },
      true,
    )
    expect(faults.map((one) => one.record)).toEqual(['feature 1 (b1)', 'feature 1 (r1)'])
    expect(told(leftOut)).toEqual([
      expect.stringMatching(/^beds.geojson feature 1 \(b1\) geometry: leaves its field/),
      expect.stringMatching(/^rows.geojson feature 1 \(r1\) geometry: leaves its bed/),
      'plantings.csv line 2 (p1) row: refers to "r1", and it was left out',
      'picks.csv line 2 (k1) planting: refers to "p1", and it was left out',
      'picks.csv line 3 (k2) bed: refers to "b1", and it was left out',
      'shares.csv line 2 pick: refers to "k1", and it was left out',
      'shares.csv line 3 pick: refers to "k1", and it was left out',
      'dressings.csv line 2 (d1) bed: refers to "b1", and it was left out',
    ])
    expect(loaded).toMatchObject({ fields: 1, beds: 1, rows: 1, plantings: 1, picks: 1 })
    expect(content!.records.get('beds')!.map((one) => one.id)).toEqual(['b2'])
  })

  it.each([
    [
      'a bed 0.2 m out of its field',
      { 'beds.geojson': beds(box(-0.2, 5, 8, 40)), 'rows.geojson': rows(line([5.6, 6], [5.6, 44])) },
      [],
    ],
    ['a bed 0.3 m out of its field', { 'beds.geojson': beds(box(-0.3, 5, 8, 40)) }, ['beds.geojson']],
    ['a row 0.45 m out of its bed', { 'rows.geojson': rows(line([6.64, 6], [6.64, 44])) }, []],
    ['a row 0.55 m out of its bed', { 'rows.geojson': rows(line([6.75, 6], [6.75, 44])) }, ['rows.geojson']],
    [
      'a bed out of its field that was accepted',
      { 'beds.geojson': beds(box(-9, 5, 16, 40), { outside_accepted: true }) },
      [],
    ],
    [
      'a row out of its bed that was accepted',
      { 'rows.geojson': rows(line([20, 6], [20, 44]), { outside_accepted: true }) },
      [],
    ],
    ['a stretch to 0.09 m beyond its row', { 'plantings.csv': plantings('', 38.06) }, []],
    ['a stretch to 0.5 m beyond its row', { 'plantings.csv': plantings('', 38.6) }, ['plantings.csv']],
    ['a stretch to within its bed', { 'plantings.csv': inBed(3, 39.9) }, []],
    // A bed may be made shorter than what was told to stand in it: nothing forbids that, and the farm still opens.
    ['a stretch to 0.5 m beyond its bed', { 'plantings.csv': inBed(3, 40.5) }, []],
    ['a stretch from beyond its row', { 'plantings.csv': plantings(39, '') }, ['plantings.csv']],
  ])('%s', async (_what, files, where) => {
    const { faults, kept } = await loadAnd(farm.db, files)
    expect(faults.map((one) => one.file)).toEqual(where)
    expect(kept).toBe(where.length === 0 ? 1 : 0)
  })

  it('tells the faults of the plane even where farm.json is faulty, and then loads nothing', async () => {
    const files = {
      'farm.json': { format: 'selion-farm', version: 1, origin: HERE },
      'beds.geojson': beds(box(5, 30, 1.2, 40)),
    }
    const db = await openTestDatabase()
    const { faults, loaded, kept } = await loadAnd(db, files, true)
    await db.close()
    expect(faults.map((one) => `${one.file} ${one.field}`)).toEqual([
      'farm.json name',
      'beds.geojson geometry',
      'rows.geojson geometry',
    ])
    expect([loaded, kept]).toEqual([null, 0])
  })

  it('refuses a database whose engine has used the plane of another farm', async () => {
    const elsewhere = readArchive(
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'Elsewhere', origin: [8.5, 47.41] },
        'trees.geojson': collection(
          feature('t', { type: 'Point', coordinates: [8.5, 47.41] }, { species: 'Juglans nigra' }),
        ),
      }),
    )
    const db = await openTestDatabase(HERE)
    await db.rows('select st_transform(st_setsrid(st_makepoint(8, 47), 4326), 990001) is not null as known')
    const refused = await loadReading(db, elsewhere, { partial: false }).then(
      () => '',
      (error: Error) => error.message,
    )
    const trees = await db.rows<{ off_m: number }>(
      `select st_distance(plan, 'srid=990001;point(0 0)') as off_m from trees`,
    )
    await db.close()
    // A server's next connection may not have used the old plane; then the new one must be in force.
    if (refused === '') expect(trees[0]!.off_m).toBeLessThan(0.001)
    else expect(refused).toMatch(/plane of another farm/)
    expect(refused === '' ? farm.db.kind : 'refused').not.toBe('embedded')
  })
})

// OGC's invalid polygons (reference: Simple Features examples as PostGIS quotes them, C): where each crosses itself.
describe.skipIf(SERVER_ABSENT)('the invalid polygons of OGC', () => {
  it.each([
    [
      'POLYGON((0 0,0 1,1 0,1 1,0 0))',
      [
        [0, 0],
        [0, 1],
        [1, 0],
        [1, 1],
        [0, 0],
      ],
      0.01,
      [0.5, 0.5],
    ],
    [
      'POLYGON((30 10,40 40,20 40,30 10,10 20,30 10))',
      [
        [30, 10],
        [40, 40],
        [20, 40],
        [30, 10],
        [10, 20],
        [30, 10],
      ],
      0.001,
      [30, 10],
    ],
  ])('%s is told with the place', async (_name, ring, scale, place) => {
    // Scaled to a farm's size: a degree is too much for a field.
    const scaled = (p: readonly number[]): Position => [p[0]! * scale, p[1]! * scale]
    const reading = readArchive(
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'F' },
        'fields.geojson': collection(feature('f', { type: 'Polygon', coordinates: [ring.map(scaled)] }, { name: 'F' })),
      }),
    )
    expect(reading.faults).toEqual([])
    const db = await openTestDatabase()
    const { faults, loaded } = await loadReading(db, reading, { partial: false })
    await db.close()
    expect(loaded).toBeNull()
    expect(faults).toHaveLength(1)
    const [, lon, lat] = / at (-?[\d.]+), (-?[\d.]+) \(lon, lat\)/.exec(faults[0]!.reason)!
    expect(Number(lon)).toBeCloseTo(place[0]! * scale, 6)
    expect(Number(lat)).toBeCloseTo(place[1]! * scale, 6)
  })
})

describe.skipIf(SERVER_ABSENT)('a field of a million corners', () => {
  it('is loaded whole', async () => {
    const ring = Array.from({ length: 1_000_000 }, (_, i): Position => {
      const angle = (2 * Math.PI * i) / 1_000_000
      return [8.03 + 1e-3 * Math.cos(angle), 47.41 + 1e-3 * Math.sin(angle)]
    })
    ring.push(ring[0]!)
    const field = feature('f', { type: 'Polygon', coordinates: [ring] }, { name: 'Round' })
    const reading = readArchive(archiveOf({ 'farm.json': SOUND['farm.json']!, 'fields.geojson': collection(field) }))
    const db = await openTestDatabase()
    const { loaded } = await loadReading(db, reading, { partial: false })
    const [kept] = await db.rows<{ corners: number }>('select st_npoints(geom) as corners from fields')
    await db.close()
    expect(loaded).toEqual({ fields: 1 })
    expect(kept!.corners).toBe(1_000_001)
  })
})
