import type { Pool, PoolClient } from 'pg'
import { asDatabaseError, type Database, DatabaseError } from './database.ts'

const AS_NUMBER = new Set([20, 1700])
const AS_TEXT = new Set([1082, 1114, 1184])
const ABORTED = '25P02'

/** Opens a PostgreSQL server with PostGIS by its URL. Node only; the driver is loaded when first used. */
export async function openServer(url: string): Promise<Database> {
  const { default: pg } = await import('pg')
  const pool = new pg.Pool({
    connectionString: url,
    options: '-c timezone=UTC -c client_min_messages=warning',
    types: {
      getTypeParser: (id: number, format?: 'text' | 'binary') => {
        if (AS_NUMBER.has(id)) return Number
        if (AS_TEXT.has(id)) return String
        return pg.types.getTypeParser(id, format)
      },
    } as never,
  })
  // A connection lost while idle is no fault of any statement; the next one says so if the server is gone.
  pool.on('error', () => undefined)
  return {
    kind: 'server',
    rows: (text, values) => run(pool, text, values),
    transaction: (work) => transact(pool, work),
    close: () => pool.end(),
  }
}

async function transact<T>(pool: Pool, work: (tx: Database) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  const self: Database = {
    kind: 'server',
    rows: (text, values) => run(client, text, values),
    transaction: (inner) => inner(self),
    close: () => Promise.reject(new Error('a transaction does not close its database')),
  }
  try {
    await run(client, 'begin')
    const value = await work(self)
    const { command } = await client.query('commit').catch(rethrow)
    if (command === 'ROLLBACK')
      throw new DatabaseError('nothing was kept, since a statement had failed', { sqlState: ABORTED })
    return value
  } catch (error) {
    await client.query('rollback').catch(() => undefined)
    throw error
  } finally {
    client.release()
  }
}

async function run<Row>(on: Pool | PoolClient, text: string, values?: readonly unknown[]): Promise<Row[]> {
  const result = await on.query(text, values as unknown[] | undefined).catch(rethrow)
  return result.rows as Row[]
}

function rethrow(error: unknown): never {
  throw asDatabaseError(error)
}
