import { IdbFs, type PGlite } from '@electric-sql/pglite'
import type { Database } from '../../../geo/store/database.ts'
import { openEmbedded } from '../../../geo/store/embedded.ts'
import { engineOptions } from '../../../geo/store/template/engineOptions.ts'
import { asked } from '../shelf/idbShelf.ts'
import { bytesAsBlob } from './bytesAsBlob.ts'
import type { Engines, Standing } from './engines.ts'
import type { EngineFetch } from './fetchEngine.ts'

/** The engine keeps a database's files under this name of IndexedDB, each keyed by its path below it. */
export const idbNameOf = (name: string) => `${PREFIX}${name}`
const PREFIX = '/pglite/'
export const IDB_FILES = 'FILE_DATA'

/** Databases in IndexedDB, for browsers that allow too few access handles. Files are in memory and written after each transaction. */
export function idbEngines(fetched: EngineFetch): Engines {
  return {
    storage: 'idb',
    look,
    async open(name, start) {
      const fs = new IdbFs(name)
      const [{ parts, options }, template] = await Promise.all([
        fetched.engine(),
        start === 'there' ? null : fetched.template(start),
      ])
      const from = template ? { ...parts, template: bytesAsBlob(template) } : parts
      const db = await openEmbedded({ ...engineOptions(from), ...options, fs })
      return closingAll(db, fs)
    },
    remove: async (name) => void (await asked(indexedDB.deleteDatabase(idbNameOf(name)))),
    list: async () =>
      (await indexedDB.databases()).flatMap(({ name }) =>
        name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [],
      ),
  }
}

async function look(name: string): Promise<Standing> {
  const known = await indexedDB.databases()
  if (!known.some((one) => one.name === idbNameOf(name))) return 'nothing'
  const db = await asked(indexedDB.open(idbNameOf(name)))
  try {
    if (!db.objectStoreNames.contains(IDB_FILES)) return 'nothing'
    const files = db.transaction(IDB_FILES, 'readonly').objectStore(IDB_FILES)
    if ((await asked(files.count())) === 0) return 'nothing'
    const version = await asked(files.getKey(`${idbNameOf(name)}/PG_VERSION`))
    return version === undefined ? { broken: 'PG_VERSION is gone' } : 'database'
  } finally {
    db.close()
  }
}

/** The engine leaves its connection to IndexedDB open when it closes, and an open one can't be removed. */
function closingAll(db: Database, fs: IdbFs): Database {
  const engine = (fs as unknown as { pg: PGlite }).pg
  const { IDBFS } = (engine.Module.FS as unknown as { filesystems: { IDBFS: { quit(): void } } }).filesystems
  return {
    ...db,
    close: async () => {
      await db.close()
      IDBFS.quit()
    },
  }
}
