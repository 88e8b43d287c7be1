/** What the build uses of sql.js (SQLite in WebAssembly), which ships no types. */
declare module 'sql.js' {
  interface SqliteDatabase {
    run(sql: string): unknown
    exec(sql: string): { columns: string[]; values: (string | number | null | Uint8Array)[][] }[]
    export(): Uint8Array
    close(): void
  }
  export default function openSqlite(): Promise<{ Database: new (bytes: Uint8Array) => SqliteDatabase }>
}
