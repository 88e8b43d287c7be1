/** What is used of sql.js (SQLite in WebAssembly), which ships no types. */
declare module 'sql.js' {
  export type SqliteValue = string | number | null | Uint8Array
  export interface SqliteStatement {
    bind(values: readonly SqliteValue[]): boolean
    step(): boolean
    get(): SqliteValue[]
    getColumnNames(): string[]
    run(values: readonly SqliteValue[]): void
    free(): boolean
  }
  export interface SqliteDatabase {
    run(sql: string): unknown
    exec(sql: string): { columns: string[]; values: SqliteValue[][] }[]
    prepare(sql: string): SqliteStatement
    export(): Uint8Array
    close(): void
  }
  export default function openSqlite(config?: {
    locateFile?: (name: string) => string
  }): Promise<{ Database: new (bytes?: Uint8Array) => SqliteDatabase }>
}
