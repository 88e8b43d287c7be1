/** The one door to Postgres, embedded or on a server. Days come as `YYYY-MM-DD`, counts as numbers, jsonb parsed. */
export interface Database {
  readonly kind: 'embedded' | 'server'
  /** Runs one statement. Throws `DatabaseError`; an engine fault that raised no SQL error is thrown too. */
  rows<Row>(text: string, values?: readonly unknown[]): Promise<Row[]>
  /** All or nothing. Transactions of one database run one after another. */
  transaction<T>(work: (tx: Database) => Promise<T>): Promise<T>
  close(): Promise<void>
}

/** What Postgres said, kept whole across every boundary. */
export class DatabaseError extends Error {
  override readonly name = 'DatabaseError'
  readonly sqlState: string
  readonly detail: string | undefined
  readonly constraint: string | undefined
  readonly table: string | undefined
  readonly column: string | undefined

  constructor(message: string, from: Partial<DatabaseErrorFields>) {
    super(message)
    this.sqlState = from.sqlState ?? 'XX000'
    this.detail = from.detail
    this.constraint = from.constraint
    this.table = from.table
    this.column = from.column
  }
}

export interface DatabaseErrorFields {
  sqlState: string
  detail: string | undefined
  constraint: string | undefined
  table: string | undefined
  column: string | undefined
}

/** State of an error that the engine let escape: a geometry or projection exception that raised no SQL error. */
export const ESCAPED = 'SE001'

/** A `DatabaseError` from what a Postgres driver threw; anything else is handed on as it is. */
export function asDatabaseError(error: unknown): unknown {
  if (error instanceof DatabaseError || !(error instanceof Error)) return error
  const said = error as Error & { code?: string; detail?: string; constraint?: string; table?: string; column?: string }
  if (typeof said.code !== 'string' || said.code.length !== 5) return error
  return new DatabaseError(said.message, {
    sqlState: said.code,
    detail: said.detail,
    constraint: said.constraint,
    table: said.table,
    column: said.column,
  })
}

/** A name as SQL writes it, quoted. */
export function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`
}
