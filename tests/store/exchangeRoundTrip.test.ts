import { existsSync, readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ArchiveFiles } from '../../geo/exchange/archive.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import type { Database } from '../../geo/store/database.ts'
import { archiveOf, collection, feature } from '../unit/exchange/archiveOf.ts'
import { randomArchive } from '../unit/exchange/randomArchive.ts'
import { emptyFarm } from './emptyFarm.ts'
import { openTestDatabase, SERVER_ABSENT, useDatabase } from './harness.ts'

const ACCEPT = '../shared/accept/farm'

/** The archive through the database: what was read, what came out, and the files written from that. */
async function through(db: Database, files: ArchiveFiles) {
  const reading = readArchive(files)
  const { faults } = await loadReading(db, reading, { partial: false })
  expect(faults).toEqual([])
  const kept = await readContent(db, reading.content!.photos)
  await emptyFarm(db)
  return { read: reading.content!, kept, written: writeArchive(kept) }
}

describe.skipIf(SERVER_ABSENT)('an archive through the database', () => {
  const farm = useDatabase()

  it('keeps records and coordinates bit for bit, on seeded random farms', async () => {
    await fc.assert(
      fc.asyncProperty(randomArchive, async (drawn) => {
        const first = await through(farm.db, archiveOf(drawn))
        expect(first.kept).toStrictEqual(first.read)
        const second = await through(farm.db, first.written)
        expect(second.kept).toStrictEqual(first.kept)
        expect(second.written).toEqual(first.written)
      }),
      { seed: 2025, numRuns: 20 },
    )
  })

  it('keeps minus zero, heights and the smallest doubles of a coordinate', async () => {
    const db = await openTestDatabase()
    const shape =
      '{"type":"LineString","coordinates":[[-0.0,5e-324,-0.0],[0,1e-17,1e300],[0.1,0.30000000000000004,-1e-300]]}'
    const { read, kept } = await through(
      db,
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'F', origin: [0, 0] },
        'structures.geojson': `{"type":"FeatureCollection","features":[{"type":"Feature","id":"w","geometry":${shape},"properties":{"kind":"path"}}]}`,
      }),
    )
    await db.close()
    const geometry = read.records.get('structures')![0]!.geom as { coordinates: number[][] }
    expect(Object.is(geometry.coordinates[0]![0], -0)).toBe(true)
    expect(kept).toStrictEqual(read)
  })

  it('keeps a farm on the 180th meridian in one piece, and writes it within ±180', async () => {
    const db = await openTestDatabase()
    const lot = (west: number, east: number) => [
      [
        [west, -16.8],
        [east, -16.8],
        [east, -16.799],
        [west, -16.799],
        [west, -16.8],
      ],
    ]
    const cut = { type: 'MultiPolygon', coordinates: [lot(179.9995, 180), lot(-180, -179.9995)] }
    const { read, kept, written } = await through(
      db,
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'Invented farm on the meridian' },
        'fields.geojson': collection(feature('f', cut, { name: 'Shore' })),
        'beds.geojson': collection(
          feature('b', { type: 'Polygon', coordinates: lot(179.9999, -179.9999) }, { field: 'f', name: 'B' }),
        ),
        'picks.csv': 'id,on,lon,lat,quantity,unit\nk,2024-08-01,-179.9999,-16.7995,1,kg\n',
      }),
    )
    expect(kept).toStrictEqual(read)
    const [joined] = await readPlan(db, written)
    await db.close()
    // X: geographiclib-geodesic 2.2, the four corners' geodesic polygon.
    expect(joined!.parts).toBe(1)
    expect(joined!.area_m2).toBeCloseTo(11796.93603, 2)
    const lons = new TextDecoder()
      .decode(written.get('beds.geojson'))
      .match(/-?1[78]\d\.\d+/g)!
      .map(Number)
    expect(Math.max(...lons.map(Math.abs))).toBeLessThanOrEqual(180)
    expect(new Set(lons.map(Math.sign)).size).toBe(2)
  })

  it.skipIf(!existsSync(ACCEPT))('keeps the farm of acceptance', async () => {
    const db = await openTestDatabase()
    const files = new Map(readdirSync(ACCEPT).map((name) => [name, new Uint8Array(readFileSync(`${ACCEPT}/${name}`))]))
    const { read, kept, written } = await through(db, files)
    await db.close()
    expect(kept).toStrictEqual(read)
    expect(readArchive(written).content).toStrictEqual(read)
  })
})

async function readPlan(db: Database, files: ArchiveFiles) {
  await loadReading(db, readArchive(files), { partial: false })
  return db.rows<{ parts: number; area_m2: number }>(
    'select st_numgeometries(plan) as parts, st_area(plan) as area_m2 from fields',
  )
}
