import { execFileSync } from 'node:child_process'
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Geodesic } from 'geographiclib-geodesic'
import proj4 from 'proj4'
import { describe, expect, it } from 'vitest'
import type { Database } from '../../geo/store/database.ts'
import { openEmbedded } from '../../geo/store/embedded.ts'
import { migrate } from '../../geo/store/migrate.ts'
import { setPlane } from '../../geo/store/setPlane.ts'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { engineOptions } from '../../geo/store/template/engineOptions.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'
import { fileInTar, writeTar } from '../../geo/store/template/tar.ts'
import { useDatabase } from './harness.ts'

const UTM = [...Array(60).keys()].flatMap((i) => [
  { srid: 32601 + i, text: `+proj=utm +zone=${i + 1} +datum=WGS84`, lon: -177 + 6 * i, lat: 52.3 },
  { srid: 32701 + i, text: `+proj=utm +zone=${i + 1} +south +datum=WGS84`, lon: -177 + 6 * i, lat: -33.7 },
])

async function transformed(db: Database, lon: number, lat: number, srid: number) {
  const [at] = await db.rows<{ x: number; y: number }>(
    `select st_x(at) as x, st_y(at) as y from st_transform(st_setsrid(st_makepoint($1, $2), 4326), $3::integer) as at`,
    [lon, lat, srid],
  )
  return at!
}

describe('a database made from the template', () => {
  const held = useDatabase()

  it('transforms to every UTM zone as proj4 does (X, proj4 2.22)', async () => {
    for (const { srid, text, lon, lat } of UTM) {
      const [x, y] = proj4('+proj=longlat +datum=WGS84', text, [lon + 1.9, lat])
      const at = await transformed(held.db, lon + 1.9, lat, srid)
      expect(Math.hypot(at.x - x!, at.y - y!), `EPSG:${srid}`).toBeLessThan(1e-5)
    }
  })

  it('transforms to Web Mercator: the example of EPSG Guidance Note 7-2 (M)', async () => {
    const at = await transformed(held.db, -(100 + 20 / 60), 24 + (22 + 54.433 / 60) / 60, 3857)
    expect(at.x).toBeCloseTo(-11169055.58, 2)
    expect(at.y).toBeCloseTo(2800000, 2)
  })

  it('can transform to whatever its spatial_ref_sys names', async () => {
    const rows = await held.db.rows<{ srid: number }>('select srid from spatial_ref_sys order by srid')
    expect(rows.map((row) => row.srid)).toEqual([3857, 4326, 4978, 4979, ...UTM.map((zone) => zone.srid).sort()])
    for (const { srid } of rows)
      await held.db.rows(`select st_transform('srid=4326;point(0 10 0)'::geometry, $1::integer)`, [srid])
  })

  it('has geodesic areas as GeographicLib has them (X, geographiclib-geodesic 2.2.0)', async () => {
    const ring = [
      [11, 46],
      [11.01, 46.001],
      [11.008, 46.009],
      [10.999, 46.006],
    ] as const
    const polygon = Geodesic.WGS84.Polygon(false)
    for (const [lon, lat] of ring) polygon.AddPoint(lat, lon)
    const wkt = [...ring, ring[0]].map((at) => at.join(' ')).join(',')
    const [row] = await held.db.rows<{ areaM2: number }>(`select st_area('polygon((${wkt}))'::geography) as "areaM2"`)
    expect(row!.areaM2 / polygon.Compute(false, true).area!).toBeCloseTo(1, 9)
  })

  it('has one database and no other to copy from', async () => {
    expect(await held.db.rows('select datname from pg_database')).toEqual([{ datname: 'postgres' }])
  })
})

describe('a database in a folder', () => {
  it('is there again when it is opened again, and needs no migration', async () => {
    const dataDir = await mkdtemp(join(tmpdir(), 'selion-data-'))
    try {
      const first = await openNodeDatabase({ dataDir })
      await setPlane(first, [11, 46])
      await first.rows(`insert into steps (id, clock, device, label) values ('s', 'c', 'd', 'a step')`)
      await first.close()
      const again = await openNodeDatabase({ dataDir })
      expect(await again.rows('select id from steps')).toEqual([{ id: 's' }])
      expect(await migrate(again, await readMigrations())).toEqual([])
      const at = await transformed(again, 11, 46, 990001)
      expect(Math.hypot(at.x, at.y)).toBeLessThan(1e-6)
      await again.close()
    } finally {
      await rm(dataDir, { recursive: true, force: true })
    }
  })
})

describe('the files that the engine is started from', () => {
  it('are small enough for a page', async () => {
    const files = await engineFiles()
    expect((await stat(files.template)).size).toBeLessThan(12e6)
    expect((await stat(files.projDb)).size).toBeLessThan(0.6e6)
    expect((await stat(files.postgis)).size).toBeLessThan(18e6)
  })

  it('are enough for a page: plpgsql, days in a timezone, PostGIS', async () => {
    const files = await engineFiles()
    const [postgis, projDb, template, data] = await Promise.all(
      [files.postgis, files.projDb, files.template, files.pgliteData].map((file) => readFile(file)),
    )
    const db = await openEmbedded({
      ...engineOptions({ postgis: postgis!, projDb: projDb!, template: new Blob([template!]) }),
      fsBundle: new Blob([data!]),
    })
    await db.rows('do $$ begin perform 1; end $$')
    // The zone's rules: UTC+1, and UTC+2 from the last Sunday of March to that of October (EU directive 2000/84/EC, M).
    const local = `select '2025-07-01 22:30Z'::timestamptz at time zone 'Europe/Rome' as summer,
      '2025-12-01 22:30Z'::timestamptz at time zone 'Europe/Rome' as winter`
    expect(await db.rows(local)).toEqual([{ summer: '2025-07-02 00:30:00', winter: '2025-12-01 23:30:00' }])
    expect(await db.rows(`select st_isvalid('polygon((0 0,1 0,1 1,0 0))') as valid`)).toEqual([{ valid: true }])
    await db.close()
  })

  it('hold one segment of write-ahead log', async () => {
    const { template } = await engineFiles()
    const names = execFileSync('tar', ['-tf', template], { encoding: 'utf8' }).split('\n')
    expect(names.filter((name) => /^pg_wal\/[0-9A-F]{24}$/.test(name))).toHaveLength(1)
  })
})

describe('a tar archive', () => {
  const entries = [
    { name: 'folder/', bytes: new Uint8Array() },
    { name: 'folder/empty', bytes: new Uint8Array() },
    { name: 'folder/text', bytes: new TextEncoder().encode('what stands here\n') },
    { name: 'block', bytes: new Uint8Array(512).fill(65) },
    { name: 'long', bytes: new Uint8Array(1300).fill(66) },
  ]

  it('gives back what was put in', () => {
    const tar = writeTar(entries)
    for (const { name, bytes } of entries) expect(fileInTar(tar, name)).toEqual(bytes)
    expect(() => fileInTar(tar, 'absent')).toThrow('no file absent')
  })

  it('is read by the system’s tar', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'selion-tar-'))
    try {
      await writeFile(join(folder, 'written.tar'), writeTar(entries))
      execFileSync('tar', ['-xf', 'written.tar'], { cwd: folder })
      for (const { name, bytes } of entries.filter((entry) => !entry.name.endsWith('/')))
        expect(new Uint8Array(await readFile(join(folder, name)))).toEqual(bytes)
      expect((await stat(join(folder, 'folder'))).isDirectory()).toBe(true)
    } finally {
      await rm(folder, { recursive: true, force: true })
    }
  })

  it('refuses a name that its header has no room for', () => {
    expect(() => writeTar([{ name: 'n'.repeat(101), bytes: new Uint8Array() }])).toThrow('name too long')
  })
})
