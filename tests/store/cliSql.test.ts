import { parse } from 'csv-parse/sync'
import type { FeatureCollection, Polygon } from 'geojson'
import { beforeAll, describe, expect, it } from 'vitest'
import { farmWith } from '../unit/exchange/archiveOf.ts'
import { filesIn, jsonOf, selion, untilLine, useFolder, writeFiles } from './cliRun.ts'

const folder = useFolder()
const farm = () => folder('farm')
const sql = (query: string, ...options: readonly string[]) => selion('sql', farm(), query, ...options)

beforeAll(async () => {
  await writeFiles(farm(), farmWith({}))
})

describe('selion sql', () => {
  it('answers in JSON, geometry as GeoJSON in lon/lat', async () => {
    const query = 'select b.id, b.name, st_area(plan) as m2, b.geom, retired from beds b order by b.id'
    const rows = await jsonOf<Record<string, unknown>[]>(sql(query, '--json'))
    expect(rows.map((row) => Object.keys(row).join())).toEqual(Array(2).fill('id,name,m2,geom,retired'))
    const given = JSON.parse((await filesIn(farm())).get('beds.geojson')!.toString()) as FeatureCollection<Polygon>
    expect(rows[0]).toMatchObject({ id: 'b1', name: 'Bed 1', m2: expect.closeTo(48, 0), retired: null })
    expect(rows.map((row) => row.geom)).toEqual(given.features.map((feature) => feature.geometry))
  })

  it('answers in CSV by RFC 4180, read back by csv-parse', async () => {
    const query = `select 'a "b", c' as told, e'two\\nlines' as "it, too", null as none, 1.5 as n, true as t`
    const { code, out, error } = await sql(query, '--csv')
    expect({ code, error }).toEqual({ code: 0, error: '' })
    expect(parse(out, { record_delimiter: '\r\n' })).toEqual([
      ['told', 'it, too', 'none', 'n', 't'],
      ['a "b", c', 'two\nlines', '', '1.5', 'true'],
    ])
    expect(out).toBe('told,"it, too",none,n,t\r\n"a ""b"", c","two\nlines",,1.5,true\r\n')
  })

  it('answers in GeoJSON, shapes of the plane brought to lon/lat', async () => {
    const told = await jsonOf<FeatureCollection<Polygon>>(
      sql('select id, st_area(plan) as m2, plan from beds order by id', '--geojson'),
    )
    expect(Object.keys(told)).toEqual(['type', 'features'])
    expect(told.type).toBe('FeatureCollection')
    const given = JSON.parse((await filesIn(farm())).get('beds.geojson')!.toString()) as FeatureCollection<Polygon>
    told.features.forEach((feature, i) => {
      expect(Object.keys(feature)).toEqual(['type', 'geometry', 'properties'])
      expect(Object.keys(feature.properties!)).toEqual(['id', 'm2'])
      const [got, wanted] = [feature, given.features[i]!].map((one) => one.geometry.coordinates[0]!.flat())
      got!.forEach((value, k) => {
        expect(value).toBeCloseTo(wanted![k]!, 11)
      })
    })
  })

  it('gives whole numbers that JSON would round as text, all others as numbers', async () => {
    // 2^53 + 1 is the first that a double does not hold (IEEE 754).
    const query =
      'select 9007199254740993 as wide, -9223372036854775808 as least, 9007199254740991 as n, count(*) as c from beds'
    expect(await jsonOf(sql(query, '--json'))).toEqual([
      { wide: '9007199254740993', least: '-9223372036854775808', n: 9007199254740991, c: 2 },
    ])
  })

  it('ends quietly where its reader stops after a line', async () => {
    // Far more than a pipe holds (64 KiB on Linux), so that it writes on when nobody reads.
    const query = "select repeat('x', 1000) as x from generate_series(1, 5000)"
    expect(await untilLine('sql', farm(), query, '--csv')).toEqual({ code: 0, out: 'x\r', error: '' })
  })

  it('wants a geometry for GeoJSON', async () => {
    expect(await sql('select 1 as one', '--geojson')).toMatchObject({ code: 2, out: '' })
  })

  it('reads only: nothing is written, and the archive stays as it is', async () => {
    const before = await filesIn(farm())
    for (const query of [
      "insert into fields (id, name) values ('x', 'X')",
      "update beds set name = 'X'",
      'drop table beds',
      'select 1; drop table beds',
      'with gone as (delete from picks returning id) select * from gone',
      "select lo_from_bytea(0, 'x')",
      'commit',
    ]) {
      const { code, out, error } = await sql(query, '--json')
      expect({ query, code, out }).toEqual({ query, code: 2, out: '' })
      expect(error).toMatch(/^selion: \S/)
    }
    expect(await filesIn(farm())).toEqual(before)
  })

  it('tells what the engine could not do instead of answering nothing', async () => {
    const crossed = "st_geomfromtext('POLYGON((0 0,1 1,0 1,1 0,0 0))')"
    const other = "st_geomfromtext('POLYGON((0 0,1 1,0 1,1 0.5,0 0))')"
    expect(await sql(`select st_union(${crossed}, ${other}) as geom`, '--json')).toMatchObject({ code: 2, out: '' })
  })
})
