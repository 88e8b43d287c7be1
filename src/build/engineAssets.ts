import { stat } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { Plugin } from 'vite'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'

const NAME = 'virtual:selion-engine'
const RESOLVED = `\0${NAME}`
const OWN_FILES = /new URL\("(?:\.\/)?(?:pglite\.wasm|pglite\.data|initdb\.wasm)",\s*import\.meta\.url\)/g

/**
 * Gives the page what the engine is started from as `virtual:selion-engine`: hashed files in a build, the files
 * themselves in development. They are made on first need (some ten seconds) and kept in the cache. The engine's own way
 * to its files is cut, so that none comes twice: the page hands it all of them. Needed among the worker's plugins too.
 */
export function engineAssets(): Plugin {
  return {
    name: 'selion-engine',
    enforce: 'pre',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) => (id === RESOLVED ? engineModule() : undefined),
    transform: (code, id) => {
      if (!/@electric-sql\/pglite\/dist\//.test(id)) return undefined
      return { code: code.replace(OWN_FILES, 'new URL("data:,")'), map: null }
    },
  }
}

async function engineModule(): Promise<string> {
  const pglite = dirname(createRequire(import.meta.url).resolve('@electric-sql/pglite'))
  const files = {
    ...(await engineFiles()),
    pgliteWasm: join(pglite, 'pglite.wasm'),
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
