import { describe, expect, it } from 'vitest'
import { useDatabase } from './harness.ts'

/** The embedded engine keeps a statement ready once it was asked twice: all here is asked time and again. */
const TIMES = [1, 2, 3, 4, 5, 6, 7]

const held = useDatabase()

describe('a statement that is asked again and again', () => {
  it('takes values of every type that records have, and gives them back as they were', async () => {
    const values = [
      'O’Hara\'s "\\bed", 畑',
      7,
      -0.1,
      true,
      null,
      ['a,b', '{c}', '"d"', ''],
      [],
      JSON.stringify({ a: [1, null, "it's"] }),
      '2025-02-28',
      9_007_199_254_740_991,
    ]
    const text = `select $1::text as words, $2::integer as count, $3::double precision as size, $4::boolean as is_so,
      $5::text as nothing, $6::text[] as list, $7::text[] as none, $8::jsonb as extra, $9::date as day, $10::bigint as large`
    for (const _ of TIMES)
      expect(await held.db.transaction((tx) => tx.rows(text, values))).toEqual([
        {
          words: values[0],
          count: 7,
          size: -0.1,
          is_so: true,
          nothing: null,
          list: values[5],
          none: [],
          extra: { a: [1, null, "it's"] },
          day: '2025-02-28',
          large: 9_007_199_254_740_991,
        },
      ])
  })

  it('is answered by the values of that time, and gives no rows where there are none', async () => {
    const text = 'select n from generate_series(1, $1::integer) as n where n > $2::integer order by n'
    for (const n of TIMES) {
      expect(await held.db.transaction((tx) => tx.rows(text, [n, n - 2]))).toEqual(
        [n - 1, n].filter((one) => one > 0).map((one) => ({ n: one })),
      )
      expect(await held.db.transaction((tx) => tx.rows(text, [n, n]))).toEqual([])
    }
  })

  it('says what is wrong every time, rolls its transaction back, and hinders none that follows', async () => {
    await held.db.rows('create table counted (n integer constraint small check (n < 10))')
    const text = 'insert into counted values ($1::integer) returning n'
    for (const n of TIMES) {
      expect(await held.db.transaction((tx) => tx.rows(text, [n]))).toEqual([{ n }])
      const work = held.db.transaction(async (tx) => {
        await tx.rows(text, [n])
        await tx.rows(text, [10 * n])
      })
      await expect(work).rejects.toMatchObject({ name: 'DatabaseError', sqlState: '23514', constraint: 'small' })
      await expect(held.db.transaction((tx) => tx.rows(text, ['seven']))).rejects.toMatchObject({ sqlState: '22P02' })
    }
    expect(await held.db.rows('select count(*) as count, sum(n) as sum from counted')).toEqual([{ count: 7, sum: 28 }])
  })

  it('raises what GEOS throws every time, and the next statement is answered', async () => {
    const text = `select st_area(st_intersection($1::geometry, $2::geometry)) as area`
    const bowTie = 'POLYGON((0 0,10 10,10 0,0 10,0 0))'
    const band = 'POLYGON((2 0,8 0,8 10,2 10,2 0))'
    for (const _ of TIMES) {
      expect(await held.db.transaction((tx) => tx.rows(text, [band, band]))).toEqual([{ area: 60 }])
      await expect(held.db.transaction((tx) => tx.rows(text, [bowTie, band]))).rejects.toMatchObject({
        sqlState: 'XX000',
      })
    }
  })

  it('follows the table when it is made anew with other columns', async () => {
    const text = 'select * from lot'
    for (const n of TIMES) {
      await held.db.rows('drop table if exists lot')
      await held.db.rows(`create table lot (c${n} text)`)
      await held.db.rows(`insert into lot values ('of time ${n}')`)
      for (const _ of TIMES)
        expect(await held.db.transaction((tx) => tx.rows(text))).toEqual([{ [`c${n}`]: `of time ${n}` }])
    }
  })

  it('is answered among more texts than are kept ready', async () => {
    await held.db.transaction(async (tx) => {
      for (const _ of [1, 2, 3])
        for (let n = 0; n < 220; n++) expect(await tx.rows(`select ${n}::integer as n`)).toEqual([{ n }])
    })
  })
})
