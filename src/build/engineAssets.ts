import { stat } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { Plugin } from 'vite'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { gridFile } from '../../geo/store/template/gridFile.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'

const NAME = 'virtual:selion-engine'
const RESOLVED = `\0${NAME}`
const GRIDS = 'virtual:selion-grids'
const RESOLVED_GRIDS = `\0${GRIDS}`
const OWN_FILES = /new URL\("(?:\.\/)?(?:pglite\.wasm|pglite\.data|initdb\.wasm)",\s*import\.meta\.url\)/g

/**
 * Gives the page what the engine is started from as `virtual:selion-engine`: hashed files in a build, the files
 * themselves in development. They are made on first need (some ten seconds) and kept in the cache. The engine's own way
 * to its files is cut, so that none comes twice: the page hands it all of them. The book of known grids comes beside
 * them, as `virtual:selion-grids`. Needed among the worker's plugins too.
 */
export function engineAssets(): Plugin {
  return {
    name: 'selion-engine',
    enforce: 'pre',
    resolveId: (id) => (id === NAME ? RESOLVED : id === GRIDS ? RESOLVED_GRIDS : undefined),
    load: (id) => (id === RESOLVED ? engineModule() : id === RESOLVED_GRIDS ? gridsModule() : undefined),
    transform: (code, id) => {
      if (!/@electric-sql\/pglite\/dist\//.test(id)) return undefined
      return { code: code.replace(OWN_FILES, 'new URL("data:,")'), map: null }
    },
  }
}

/** The book of grids, fetched only where a photo names one that is not known without it. */
async function gridsModule(): Promise<string> {
  return `import url from ${JSON.stringify(`${await gridFile()}?url`)}\nexport const gridsUrl = url`
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
