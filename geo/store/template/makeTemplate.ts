import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Extension, PGlite } from '@electric-sql/pglite'
import { postgis } from '@electric-sql/pglite-postgis'
import { PLANE_SRID } from '../../plane/plane.ts'
import type { Database } from '../database.ts'
import { wrapEngine } from '../embedded.ts'
import { type Migration, migrate } from '../migrate.ts'
import { type LookupModule, quickenLookups } from './quickenLookups.ts'
import { type TarEntry, writeTar } from './tar.ts'

/**
 * A data directory, as a tar archive, of a database with PostGIS and all `migrations`: what a new farm starts from, so
 * that opening one runs neither initdb nor `create extension`. Takes some ten seconds. Node only.
 */
export function makeTemplate(migrations: readonly Migration[]): Promise<Uint8Array> {
  return directoryOf(async (dataDir) => {
    const initDbStartParams = ['--wal-segsize=1']
    const db = wrapEngine(await PGlite.create({ dataDir, extensions: { postgis: quickened }, initDbStartParams }))
    await migrate(db, migrations)
    return db
  })
}

/** The data directory, as a tar archive, of the database that `make` makes in a folder: cut to what farms use. */
export async function directoryOf(make: (dataDir: string) => Promise<Database>): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'selion-template-'))
  try {
    const db = await make(folder)
    await shrink(db)
    await db.close()
    return writeTar(await entriesOf(folder))
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** PostGIS as it comes, its functions found at once: `create extension` looks for every one of them. */
const quickened: Extension = {
  ...postgis,
  setup: async (pg, emscriptenOpts) => {
    const quickenIn = quickenLookups(emscriptenOpts)
    const made = await postgis.setup(pg, emscriptenOpts)
    const init = async () => quickenIn((pg as unknown as { Module: LookupModule }).Module)
    return { ...made, init }
  },
}

/**
 * Takes out what no farm uses: coordinate systems that PROJ's cut database lacks, comments on built-in functions, the
 * two databases that others would be copied from. Closing after it leaves one segment of write-ahead log: a fresh one,
 * so that the last checkpoint can't fall across two.
 */
async function shrink(db: Database): Promise<void> {
  await db.rows(
    `delete from spatial_ref_sys where srid not in (4326, 4978, 4979, 3857, ${PLANE_SRID})
       and srid not between 32601 and 32660 and srid not between 32701 and 32760`,
  )
  await db.rows('delete from pg_description')
  await db.rows('update pg_database set datistemplate = false')
  await db.rows('drop database if exists template0')
  await db.rows('drop database if exists template1')
  await db.rows('vacuum full freeze')
  await db.rows('set wal_recycle = off')
  await db.rows('select pg_switch_wal()')
  await db.rows('checkpoint')
}

/** Every file and folder, by name, empty folders too: Postgres looks for them. */
async function entriesOf(folder: string, within = ''): Promise<TarEntry[]> {
  const entries: TarEntry[] = []
  const found = await readdir(join(folder, within), { withFileTypes: true })
  for (const item of found.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const name = within + item.name
    if (item.isDirectory()) {
      entries.push({ name: `${name}/`, bytes: new Uint8Array() }, ...(await entriesOf(folder, `${name}/`)))
    } else {
      entries.push({ name, bytes: await readFile(join(folder, name)) })
    }
  }
  return entries
}
