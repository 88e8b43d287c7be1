declare module 'virtual:selion-engine' {
  /** A file that the engine is started from: where it is served, and how long it is unpacked. */
  export interface EngineAsset {
    readonly url: string
    readonly bytes: number
  }

  /** All that a page fetches before its database opens; `template` only for a new one. */
  export const assets: {
    /** The data directory that a new database starts from, a tar archive. */
    readonly template: EngineAsset
    /** PostGIS's library, a WebAssembly module. */
    readonly postgis: EngineAsset
    /** PROJ's database. */
    readonly projDb: EngineAsset
    /** The engine, a WebAssembly module. */
    readonly pgliteWasm: EngineAsset
    /** The files that the engine is installed with. */
    readonly pgliteData: EngineAsset
  }

  /** The migrations of this version, for a database that an older one made. */
  export const migrations: readonly { readonly name: string; readonly text: string }[]
}

declare module 'virtual:selion-grids' {
  /** Where the book of known grids is served. */
  export const gridsUrl: string
}
