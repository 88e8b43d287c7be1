import { createHash } from 'node:crypto'
import { access, mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Migration } from '../migrate.ts'
import { readMigrations } from './readMigrations.ts'

/** Where the files lie that the embedded engine is started from. */
export interface EngineFiles {
  readonly template: string
  readonly postgis: string
  readonly projDb: string
  /** For a page only; Node has the engine's own. */
  readonly pgliteData: string
}

const CACHE = fileURLToPath(new URL('../../../node_modules/.cache/selion/', import.meta.url))
const RECIPE = [
  'makeTemplate.ts',
  'trimPostgis.ts',
  'trimExports.ts',
  'trimData.ts',
  'projSubset.ts',
  'tar.ts',
  '../migrate.ts',
]
const ENGINE = ['@electric-sql/pglite', '@electric-sql/pglite-postgis']
const DAY_MS = 86_400_000

/**
 * The files for this version of the engine and of the migrations, from the cache or made now (some ten seconds, once).
 * Two processes that make them at once don't clash: each makes its own folder, and the first to be done gives it its
 * name. Node only.
 */
export async function engineFiles(now = Date.now()): Promise<EngineFiles> {
  const migrations = await readMigrations()
  const folder = join(CACHE, `engine-${await recipeHash(migrations)}`)
  const files = {
    template: join(folder, 'template.tar'),
    postgis: join(folder, 'postgis.wasm'),
    projDb: join(folder, 'proj.db'),
    pgliteData: join(folder, 'pglite.data'),
  }
  if (await isThere(folder)) return files
  const making = join(CACHE, `making-${process.pid}-${now}`)
  await mkdir(making, { recursive: true })
  try {
    const [{ trimPostgis }, { trimData }, { makeTemplate }] = await Promise.all([
      import('./trimPostgis.ts'),
      import('./trimData.ts'),
      import('./makeTemplate.ts'),
    ])
    const { library, projDb } = await trimPostgis()
    await writeFile(join(making, 'postgis.wasm'), library)
    await writeFile(join(making, 'proj.db'), projDb)
    await writeFile(join(making, 'pglite.data'), await trimData())
    await writeFile(join(making, 'template.tar'), await makeTemplate(migrations))
    await rename(making, folder).catch(async (error: unknown) => {
      if (!(await isThere(folder))) throw error
    })
  } finally {
    await rm(making, { recursive: true, force: true })
  }
  await forgetOthers(folder, now)
  return files
}

/** Changes with whatever the files are made from: migrations, the engine's versions, the code that makes them. */
async function recipeHash(migrations: readonly Migration[]): Promise<string> {
  const hash = createHash('sha256')
  for (const { name, text } of migrations) hash.update(`${name}\n${text}\n`)
  for (const file of RECIPE) hash.update(await readFile(new URL(file, import.meta.url)))
  for (const name of ENGINE) hash.update(await versionOf(name))
  return hash.digest('hex').slice(0, 16)
}

async function versionOf(name: string): Promise<string> {
  const entry = createRequire(import.meta.url).resolve(name)
  const root = entry.slice(0, entry.lastIndexOf('dist'))
  const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as { version: string }
  return `${name}@${version}\n`
}

/** Removes what older versions left, and what was never finished, when nothing made it within the last day. */
async function forgetOthers(kept: string, now: number): Promise<void> {
  for (const name of await readdir(CACHE)) {
    const path = join(CACHE, name)
    if (!/^(engine|making)-/.test(name) || path === kept) continue
    const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: now }))
    if (now - mtimeMs > DAY_MS) await rm(path, { recursive: true, force: true })
  }
}

async function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}
