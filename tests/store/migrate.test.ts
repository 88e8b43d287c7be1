import { createHash } from 'node:crypto'
import { readFile, writeFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import type { Database } from '../../geo/store/database.ts'
import { type Migration, migrate, statementsOf, UnknownSchema } from '../../geo/store/migrate.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'
import { rollback, useDatabase } from './harness.ts'

const SHIPPED = new URL('../../geo/store/migrations/shipped.json', import.meta.url)
const migrations = await readMigrations()

async function applied(db: Database): Promise<string[]> {
  const rows = await db.rows<{ name: string }>('select name from migrations order by name')
  return rows.map((row) => row.name)
}

const later = (text: string): Migration => ({ name: '9001_later.sql', text })

describe('a database and its migrations', () => {
  const held = useDatabase()

  it('has each migration once, in order, and none twice', async () => {
    expect(await applied(held.db)).toEqual(migrations.map((migration) => migration.name))
    expect(await migrate(held.db, migrations)).toEqual([])
    expect(await applied(held.db)).toEqual(migrations.map((migration) => migration.name))
  })

  it('goes forward by what is new', () =>
    rollback(held.db, async (tx) => {
      const text = `create table later (note text default 'a;b'); insert into later default values`
      expect(await migrate(tx, [...migrations, later(text)])).toEqual(['9001_later.sql'])
      expect(await tx.rows('select note from later')).toEqual([{ note: 'a;b' }])
    }))

  it('keeps nothing of a migration that fails, nor its bookkeeping row, and can be tried again', async () => {
    const before = await applied(held.db)
    const bad = later('create table half (n integer); select 1 / 0')
    await expect(migrate(held.db, [...migrations, bad])).rejects.toMatchObject({ sqlState: '22012' })
    expect(await applied(held.db)).toEqual(before)
    expect(await held.db.rows(`select to_regclass('half')::text as half`)).toEqual([{ half: null }])
    await rollback(held.db, async (tx) => {
      expect(await migrate(tx, [...migrations, later('create table half (n integer)')])).toEqual(['9001_later.sql'])
    })
  })

  it('is refused by an older version, which says so', () =>
    rollback(held.db, async (tx) => {
      await migrate(tx, [...migrations, later('select 1')])
      const refused = migrate(tx, migrations)
      await expect(refused).rejects.toBeInstanceOf(UnknownSchema)
      await expect(refused).rejects.toThrow('last opened by a newer version (9001_later.sql)')
    }))

  it('is refused where a migration was another one', () =>
    rollback(held.db, async (tx) => {
      const other = { name: '0001_other.sql', text: 'select 1' }
      const refused = migrate(tx, [other, ...migrations.slice(1)])
      await expect(refused).rejects.toBeInstanceOf(UnknownSchema)
      await expect(refused).rejects.toThrow(`${migrations[0]!.name}, here it is 0001_other.sql`)
    }))

  it('is refused where its tables are another program’s', () =>
    rollback(held.db, async (tx) => {
      await tx.rows('drop table migrations')
      await expect(migrate(tx, migrations)).rejects.toThrow('tables of another program')
    }))
})

describe('the migrations', () => {
  it('are numbered from 0001 without a gap', () => {
    const numbers = migrations.map((migration) => Number(migration.name.slice(0, 4)))
    expect(numbers.length).toBeGreaterThan(0)
    expect(numbers).toEqual(numbers.map((_, i) => i + 1))
  })

  it('stand as they were shipped', async () => {
    const now = Object.fromEntries(
      migrations.map(({ name, text }) => [name, createHash('sha256').update(text).digest('hex')]),
    )
    if (process.env.UPDATE_SHIPPED === '1') await writeFile(SHIPPED, `${JSON.stringify(now, null, 2)}\n`)
    const shipped = JSON.parse(await readFile(SHIPPED, 'utf8')) as Record<string, string>
    for (const [name, hash] of Object.entries(shipped))
      expect(now[name], `${name} was changed after it was shipped: write a new migration`).toBe(hash)
  })
})

describe('the statements of a script', () => {
  it.each([
    ['one without a semicolon', 'select 1', ['select 1']],
    ['two and an empty one', 'select 1;\n\nselect 2;;', ['select 1', 'select 2']],
    ['a semicolon in a string', `select 'a;b''c;d'; select 2`, [`select 'a;b''c;d'`, 'select 2']],
    ['a semicolon in a name', 'select 1 as "a;b"; select 2', ['select 1 as "a;b"', 'select 2']],
    ['a semicolon in a comment', '-- a; b\nselect 1; -- c; d', ['-- a; b\nselect 1']],
    ['a quote in a comment', `-- it's\nselect 1; select 2`, [`-- it's\nselect 1`, 'select 2']],
    ['a dollar quote', `do $$ begin a; b; end $$; select 1`, ['do $$ begin a; b; end $$', 'select 1']],
    ['a named dollar quote', 'do $x$ $$;$$; $x$; select 1', ['do $x$ $$;$$; $x$', 'select 1']],
  ])('%s', (_, script, statements) => {
    expect(statementsOf(script)).toEqual(statements)
  })

  it('fails on a dollar quote that is not closed', () => {
    expect(() => statementsOf('do $$ begin; end')).toThrow('$$ is not closed')
  })
})
