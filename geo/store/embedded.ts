import { PGlite, type PGliteOptions, type Results, type Transaction } from '@electric-sql/pglite'
import { asDatabaseError, type Database, DatabaseError, ESCAPED } from './database.ts'
import { PreparedStatements } from './prepared.ts'

const asText = (value: string) => value
const PARSERS = { 20: Number, 1082: asText, 1114: asText, 1184: asText, 1700: Number }

/**
 * What the engine is started with beside its own. Recursion is stopped by a stack limit low enough that it is met before
 * the limit of a browser worker's or Node's own stack, which would stop the engine for good. The buffers are written
 * over with zeros at every opening, and stay taken: a farm of 50,000 picks is reckoned no faster with the usual 128 MB.
 */
const SETTINGS = ['max_stack_depth=100kB', 'timezone=UTC', 'shared_buffers=16MB']

/** Opens the embedded engine. `options` say where the data lie and what they start from. */
export async function openEmbedded(options: PGliteOptions): Promise<Database> {
  const engine = await PGlite.create({
    ...options,
    parsers: PARSERS,
    startParams: [...PGlite.defaultStartParams, ...SETTINGS.flatMap((setting) => ['-c', setting])],
  })
  return wrapEngine(engine)
}

/** The wrapper about an engine that is open. It sends one statement a call, since what follows an escape is lost too. */
export function wrapEngine(engine: PGlite): Database {
  const prepared = new PreparedStatements(engine)
  return {
    kind: 'embedded',
    rows: (text, values) => {
      prepared.heed(text)
      return rowsOf(text, engine.query(text, values as unknown[] | undefined))
    },
    transaction: (work) => engine.transaction((tx) => wholly(within(tx, prepared), work)).catch(rethrow),
    close: () => engine.close(),
  }
}

/** Does the work. Asks once more at its end, since the engine commits nothing without a word where a statement failed. */
async function wholly<T>(tx: Database, work: (tx: Database) => Promise<T>): Promise<T> {
  const value = await work(tx)
  await tx.rows('select 1')
  return value
}

function within(tx: Transaction, prepared: PreparedStatements): Database {
  const self: Database = {
    kind: 'embedded',
    rows: (text, values) => {
      if (tx.closed) return Promise.reject(new Error('the transaction has ended'))
      const asked = async () =>
        (await prepared.answer<never>(text, values)) ?? (await tx.query<never>(text, values as unknown[] | undefined))
      return rowsOf(text, asked())
    },
    transaction: (work) => work(self),
    close: () => Promise.reject(new Error('a transaction does not close its database')),
  }
  return self
}

async function rowsOf<Row>(text: string, asked: Promise<Results<Row>>): Promise<Row[]> {
  const result: Results<Row> & { command?: string } = await asked.catch(rethrow)
  if (result.command === undefined)
    throw new DatabaseError('the engine gave up on a geometry or projection without saying why', {
      sqlState: ESCAPED,
      detail: text.slice(0, 400),
    })
  return result.rows
}

function rethrow(error: unknown): never {
  throw asDatabaseError(error)
}
