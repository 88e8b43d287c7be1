import { describe, expect, it } from 'vitest'
import type { Database } from '../../geo/store/database.ts'
import { ENGINE, openTestDatabase, useDatabase } from './harness.ts'

/** OGC's "bow tie", which crosses itself at 5 5. */
const BOW_TIE = `'POLYGON((0 0,10 10,10 0,0 10,0 0))'::geometry`
const BAND = `'POLYGON((2 0,8 0,8 10,2 10,2 0))'::geometry`
/** A grid that names an authority which no PROJ database holds. A server falls back on its PROJ text. */
const UNKNOWN_TO_PROJ = 991001
const TRANSFORM = `st_transform('srid=4326;point(11 46)'::geometry, ${UNKNOWN_TO_PROJ})`

const OVERLAYS = {
  'ST_Intersection of an invalid polygon': `st_intersection(${BOW_TIE}, ${BAND})`,
  'ST_Difference of an invalid polygon': `st_difference(${BOW_TIE}, ${BAND})`,
  'ST_SymDifference of an invalid polygon': `st_symdifference(${BOW_TIE}, ${BAND})`,
  'ST_Union of an invalid polygon': `st_union(${BOW_TIE}, ${BAND})`,
  'ST_Union over rows': `(select st_union(shape) from (values (${BOW_TIE}), (${BAND})) as shapes (shape))`,
} as const

/**
 * What throws on this engine, by what it is. GEOS and PROJ are built without any catching in the embedded engine: left
 * to itself, it answers such a statement with no rows and no error, commits its neighbours, and lets plpgsql go on as
 * if nothing had been. A server raises an SQL error (tried on PostgreSQL 15 with PostGIS 3.3), and so must it.
 */
const THROWN = Object.entries(
  ENGINE === 'embedded' ? { ...OVERLAYS, 'ST_Transform to a grid that PROJ lacks': TRANSFORM } : OVERLAYS,
)
const FAILS = { name: 'DatabaseError', sqlState: 'XX000' }

async function kept(db: Database): Promise<string[]> {
  const rows = await db.rows<{ label: string }>('select label from kept order by label')
  return rows.map((row) => row.label)
}

async function prepare(db: Database): Promise<Database> {
  await db.rows('drop table if exists kept')
  await db.rows('create table kept (label text)')
  await db.rows(
    `insert into spatial_ref_sys (srid, auth_name, auth_srid, proj4text)
     values (${UNKNOWN_TO_PROJ}, 'NOWHERE', 1, '+proj=tmerc +lat_0=46 +lon_0=11 +datum=WGS84') on conflict do nothing`,
  )
  return db
}

const held = useDatabase()

describe.each(THROWN)('%s', (_, thrown) => {
  it('raises an SQL error that says why, and the next statement is answered', async () => {
    const db = await prepare(held.db)
    await expect(db.rows(`select ${thrown}`)).rejects.toMatchObject({
      ...FAILS,
      message: expect.stringMatching(/TopologyException|crs not found/),
    })
    expect(await db.rows('select 1 as one')).toEqual([{ one: 1 }])
  })

  it('keeps nothing of a statement that wrote before it', async () => {
    const db = await prepare(held.db)
    await db.rows(
      `create or replace function writes_then_throws() returns geometry language sql as
       $$ insert into kept values ('half'); select ${thrown} $$`,
    )
    await expect(db.rows('select writes_then_throws()')).rejects.toMatchObject(FAILS)
    expect(await kept(db)).toEqual([])
  })

  it('rolls back the transaction it stands in', async () => {
    const db = await prepare(held.db)
    const work = db.transaction(async (tx) => {
      await tx.rows(`insert into kept values ('before')`)
      await tx.rows(`select ${thrown}`)
      await tx.rows(`insert into kept values ('after')`)
    })
    await expect(work).rejects.toMatchObject(FAILS)
    expect(await kept(db)).toEqual([])
  })

  it('rolls the transaction back, and says so, where the work looks away', async () => {
    const db = await prepare(held.db)
    const work = db.transaction(async (tx) => {
      await tx.rows(`insert into kept values ('before')`)
      await tx.rows(`select ${thrown}`).catch(() => undefined)
    })
    await expect(work).rejects.toMatchObject({ name: 'DatabaseError', sqlState: '25P02' })
    expect(await kept(db)).toEqual([])
  })

  it('is met by an exception handler of plpgsql', async () => {
    const db = await prepare(held.db)
    await db.rows(
      `do $$ begin
         insert into kept values ('before');
         begin
           insert into kept values ('undone');
           perform ${thrown};
           insert into kept values ('never');
         exception when others then
           insert into kept values ('handled ' || sqlstate);
         end;
         insert into kept values ('on');
       end $$`,
    )
    expect(await kept(db)).toEqual(['before', 'handled XX000', 'on'])
  })

  it('stops a plpgsql function and a trigger without a handler', async () => {
    const db = await prepare(held.db)
    await db.rows(
      `create or replace function throws() returns trigger language plpgsql as
       $$ begin perform ${thrown}; return new; end $$`,
    )
    await db.rows('create trigger throws before insert on kept for each row execute function throws()')
    await expect(db.rows(`insert into kept values ('row')`)).rejects.toMatchObject(FAILS)
    expect(await kept(db)).toEqual([])
    await expect(db.rows(`do $$ begin perform ${thrown}; end $$`)).rejects.toMatchObject(FAILS)
  })
})

describe('the engine after faults', () => {
  it('says what it lacks: a grid that is not in spatial_ref_sys', async () => {
    await expect(held.db.rows(`select st_transform('srid=4326;point(11 46)'::geometry, 990001)`)).rejects.toMatchObject(
      {
        message: expect.stringContaining('Cannot find SRID (990001)'),
      },
    )
  })

  it('stops infinite recursion with an SQL error and answers on', async () => {
    await held.db.rows(
      `create function forever(n integer) returns integer language plpgsql as $$ begin return forever(n + 1); end $$`,
    )
    for (const _ of [1, 2, 3])
      await expect(held.db.rows('select forever(1)')).rejects.toMatchObject({ sqlState: '54001' })
    expect(await held.db.rows('select 1 as one')).toEqual([{ one: 1 }])
  })

  it('stops an expression that is nested too deep and answers on', async () => {
    const deep = `select ${Array(20_000).fill('n').join(' + ')} from (values (1)) as numbers (n)`
    await expect(held.db.rows(deep)).rejects.toMatchObject({ sqlState: '54001' })
    expect(await held.db.rows('select 1 as one')).toEqual([{ one: 1 }])
  })

  it('does not wear out by SQL errors', async () => {
    for (let n = 0; n < 500; n++)
      await expect(held.db.rows('select 1 / 0')).rejects.toMatchObject({ sqlState: '22012' })
    await held.db.rows(`create function depth(n integer) returns integer language plpgsql as
      $$ begin return case when n = 0 then 0 else 1 + depth(n - 1) end; end $$`)
    expect(await held.db.rows('select depth(50) as depth')).toEqual([{ depth: 50 }])
  })
})

describe.skipIf(ENGINE === 'server')('the embedded engine', () => {
  it('answers nothing more once it has broken down', async () => {
    const db = await openTestDatabase()
    // A pattern that is nested deeper than the stack limit knows of ends in the stack of Node itself.
    const nested = `select 'a' ~ '${'('.repeat(20_000)}a${')'.repeat(20_000)}'`
    await expect(db.rows(nested)).rejects.toMatchObject({ name: 'DatabaseError', sqlState: 'SE002' })
    await expect(db.rows('select 1')).rejects.toMatchObject({ name: 'DatabaseError', sqlState: 'SE002' })
    await db.close()
  })
})
