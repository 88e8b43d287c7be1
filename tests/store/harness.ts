import { randomBytes } from 'node:crypto'
import { afterAll, beforeAll, inject } from 'vitest'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { Database } from '../../geo/store/database.ts'
import { migrate } from '../../geo/store/migrate.ts'
import { openServer } from '../../geo/store/server.ts'
import { setPlane } from '../../geo/store/setPlane.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'

declare module 'vitest' {
  interface ProvidedContext {
    /** Which engine the project's tests are to run on; embedded where nothing is said. */
    engine: 'embedded' | 'server'
    /** The server's URL; empty when none is at hand. */
    databaseUrl: string
  }
}

/** The engine these tests run on. */
export const ENGINE: 'embedded' | 'server' = inject('engine') ?? 'embedded'

/** True when the tests are to run on a server and there is none. */
export const SERVER_ABSENT = ENGINE === 'server' && !inject('databaseUrl')

/**
 * A database for one test file, open from its first test to its last, with all migrations and, where `origin` is
 * given, the farm's plane. One plane a database: PROJ keeps a plane that it has used.
 */
export function useDatabase(origin?: LonLat): { readonly db: Database } {
  const held: { db?: Database } = {}
  beforeAll(async () => {
    held.db = await openTestDatabase(origin)
  })
  afterAll(() => held.db?.close())
  return {
    get db() {
      if (!held.db) throw new Error('the database is open in tests and hooks only')
      return held.db
    },
  }
}

/** A new database of its own, with all migrations. Closing it removes it. */
export async function openTestDatabase(origin?: LonLat): Promise<Database> {
  const db = ENGINE === 'server' ? await newOnServer() : await openNodeDatabase()
  if (ENGINE === 'server') await migrate(db, await readMigrations())
  if (origin) await setPlane(db, origin)
  return db
}

/** Runs `work` on a database of its own with the plane about `origin`, and removes it. */
export async function withPlane<T>(origin: LonLat, work: (db: Database) => Promise<T>): Promise<T> {
  const db = await openTestDatabase(origin)
  try {
    return await work(db)
  } finally {
    await db.close()
  }
}

const ROLLED_BACK = new Error('rolled back')

/**
 * Runs `work` in a transaction that is rolled back, so that tests may share a database. What is checked at commit is
 * not checked here unless `work` says `set constraints all immediate`.
 */
export async function rollback<T>(db: Database, work: (tx: Database) => Promise<T>): Promise<T> {
  let value: { is: T } | undefined
  await db
    .transaction(async (tx) => {
      value = { is: await work(tx) }
      throw ROLLED_BACK
    })
    .catch((error: unknown) => {
      if (error !== ROLLED_BACK) throw error
    })
  if (!value) throw new Error('the work was not done')
  return value.is
}

/** An empty database on the server, without migrations. Closing it removes it. */
export async function newOnServer(): Promise<Database> {
  const url = new URL(inject('databaseUrl'))
  const name = `selion_test_${randomBytes(6).toString('hex')}`
  const onServer = async (text: string) => {
    const server = await openServer(url.href)
    await server.rows(text).finally(() => server.close())
  }
  await onServer(`create database ${name}`)
  const own = new URL(url)
  own.pathname = `/${name}`
  const db = await openServer(own.href)
  return {
    ...db,
    close: async () => {
      await db.close()
      await onServer(`drop database ${name} with (force)`)
    },
  }
}
