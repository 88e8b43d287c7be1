import type { SqliteDatabase } from 'sql.js'

/** An SQLite database from its bytes, or an empty one. `url`: where its WebAssembly lies; null beside its module. */
export async function openSqlite(bytes: Uint8Array | null, url: string | null): Promise<SqliteDatabase> {
  const { default: load } = await import('sql.js')
  const { Database } = await load(url === null ? {} : { locateFile: () => url })
  return bytes ? new Database(bytes) : new Database()
}
