import type { Extension, PGliteOptions } from '@electric-sql/pglite'
import { type HeldEngine, holdEngine } from './holdEngine.ts'
import { type LookupModule, quickenLookups } from './quickenLookups.ts'
import { type ErrorModule, raiseThrown } from './raiseThrown.ts'

/** A compiled WebAssembly module. */
export type WasmModule = NonNullable<PGliteOptions['pgliteWasmModule']>

/** What the engine is started from. Bytes, so that whoever fetches them can show how far it is. */
export interface EngineParts {
  /** PostGIS's library, as bytes or compiled already (a page can compile it while it comes). */
  readonly postgis: Uint8Array | WasmModule
  /** PROJ's database, cut to what is asked for. */
  readonly projDb: Uint8Array
  /** The template's tar archive; left out where the data directory holds a database already. */
  readonly template?: Blob
}

const LIBRARY = { folder: '/pglite/lib/postgresql', name: 'postgis-3.so' }
const PROJ_FOLDER = '/pglite/share/proj'

/**
 * Options by which PGlite opens a database made from the template, in Node and in a page alike. The caller adds where
 * the data lie (`dataDir` or `fs`) and, in a page, what it has fetched: `pgliteWasmModule`, `fsBundle`, and an empty
 * `initdbWasmModule`, since initdb never runs and is fetched otherwise.
 */
export function engineOptions(parts: EngineParts): PGliteOptions {
  return {
    extensions: { postgis: postgisFrom(parts) },
    ...(parts.template && { loadDataDir: parts.template }),
  }
}

/** What is used of Emscripten's file system. */
interface Files {
  mkdirTree(path: string): void
  writeFile(path: string, bytes: Uint8Array): void
  createPreloadedFile(
    folder: string,
    name: string,
    content: Uint8Array | WasmModule,
    canRead: boolean,
    canWrite: boolean,
    loaded: () => void,
    failed: () => void,
    writesNoFile: boolean,
  ): void
}

/**
 * PostGIS put in place by hand, when the engine has started and before its first geometry. The engine's own loader
 * takes gzip only, which is a quarter larger than brotli, and keeps the library in memory twice.
 */
function postgisFrom({ postgis, projDb }: EngineParts): Extension {
  return {
    name: 'postgis',
    setup: async (pg, emscriptenOpts) => {
      emscriptenOpts.PGLITE_ENV.PROJ_DATA = PROJ_FOLDER
      const raiseFrom = raiseThrown(emscriptenOpts)
      const quickenIn = quickenLookups(emscriptenOpts)
      return {
        emscriptenOpts,
        init: async () => {
          const engine = pg as unknown as HeldEngine & { Module: ErrorModule & LookupModule & { FS: Files } }
          holdEngine(engine)
          raiseFrom(engine.Module)
          quickenIn(engine.Module)
          const { FS } = engine.Module
          FS.mkdirTree(PROJ_FOLDER)
          FS.writeFile(`${PROJ_FOLDER}/proj.db`, projDb)
          // Postgres looks whether the file is there; the library itself is taken from what is compiled here.
          FS.writeFile(`${LIBRARY.folder}/${LIBRARY.name}`, new Uint8Array())
          await new Promise<void>((resolve, reject) => {
            const failed = () => reject(new Error('the PostGIS library could not be loaded'))
            FS.createPreloadedFile(LIBRARY.folder, LIBRARY.name, postgis, true, true, resolve, failed, true)
          })
        },
      }
    },
  }
}
