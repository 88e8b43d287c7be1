import type { Database } from './database.ts'

/** One numbered change of the schema: `0001_farm.sql` and its text. */
export interface Migration {
  readonly name: string
  readonly text: string
}

/** Why a database can't be opened by this version. */
export class UnknownSchema extends Error {
  override readonly name = 'UnknownSchema'
}

/**
 * Brings a database to the newest schema, each migration in a transaction with its bookkeeping row. Refuses one that
 * holds a migration unknown here (made by a newer version), or tables that are not ours.
 */
export async function migrate(db: Database, migrations: readonly Migration[]): Promise<string[]> {
  await db.rows('create extension if not exists postgis').catch((error: Error) => {
    throw new UnknownSchema(`PostGIS is not to be had in this database: ${error.message}`)
  })
  const done = await appliedTo(db)
  migrations.forEach((migration, i) => {
    if (done[i] !== undefined && done[i] !== migration.name)
      throw new UnknownSchema(`migration ${i + 1} of this database is ${done[i]}, here it is ${migration.name}`)
  })
  if (done.length > migrations.length)
    throw new UnknownSchema(`this farm was last opened by a newer version (${done[migrations.length]}): update Selion`)
  const fresh = migrations.slice(done.length)
  for (const migration of fresh)
    await db.transaction(async (tx) => {
      for (const statement of statementsOf(migration.text)) await tx.rows(statement)
      await tx.rows('insert into migrations (name) values ($1)', [migration.name])
    })
  return fresh.map((migration) => migration.name)
}

async function appliedTo(db: Database): Promise<string[]> {
  const [known] = await db.rows<{ ours: string | null; others: string | null }>(
    `select to_regclass('public.migrations')::text as ours, to_regclass('public.beds')::text as others`,
  )
  if (known?.ours) {
    const rows = await db.rows<{ name: string }>('select name from migrations order by name')
    return rows.map((row) => row.name)
  }
  if (known?.others) throw new UnknownSchema('this database holds tables of another program')
  await db.rows('create table migrations (name text primary key, at timestamptz not null default now())')
  return []
}

/** The statements of a script. Splits at semicolons outside quotes, dollar quotes and line comments. */
export function statementsOf(script: string): string[] {
  const statements: string[] = []
  let start = 0
  const token = /--[^\n]*|'(?:[^']|'')*'|"(?:[^"]|"")*"|(\$\w*\$)|;/g
  for (let match = token.exec(script); match; match = token.exec(script)) {
    if (match[1]) {
      const end = script.indexOf(match[1], token.lastIndex)
      if (end < 0) throw new Error(`dollar quote ${match[1]} is not closed`)
      token.lastIndex = end + match[1].length
    } else if (match[0] === ';') {
      statements.push(script.slice(start, match.index))
      start = token.lastIndex
    }
  }
  statements.push(script.slice(start))
  return statements.map((s) => s.trim()).filter((s) => s.replace(/--[^\n]*/g, '').trim() !== '')
}
