import { stat } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { Plugin } from 'vite'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'

const NAME = 'virtual:selion-engine'
const RESOLVED = `\0${NAME}`

/**
 * Gives the page what the engine is started from as `virtual:selion-engine`: hashed files in a build, the files
 * themselves in development. They are made on first need (some ten seconds) and kept in the cache. Needed among the
 * worker's plugins too.
 */
export function engineAssets(): Plugin {
  return {
    name: 'selion-engine',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) => (id === RESOLVED ? engineModule() : undefined),
  }
}

async function engineModule(): Promise<string> {
  const pglite = dirname(createRequire(import.meta.url).resolve('@electric-sql/pglite'))
  const files = {
    ...(await engineFiles()),
    pgliteWasm: join(pglite, 'pglite.wasm'),
    pgliteData: join(pglite, 'pglite.data'),
  }
  const imports: string[] = []
  const entries: string[] = []
  for (const [name, path] of Object.entries(files)) {
    imports.push(`import ${name} from ${JSON.stringify(`${path}?url`)}`)
    entries.push(`  ${name}: { url: ${name}, bytes: ${(await stat(path)).size} },`)
  }
  return [
    ...imports,
    `export const assets = {\n${entries.join('\n')}\n}`,
    `export const migrations = ${JSON.stringify(await readMigrations())}`,
  ].join('\n')
}
