import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { promisify } from 'node:util'
import { gunzip } from 'node:zlib'
import { projSubset } from './projSubset.ts'
import { fileInTar } from './tar.ts'
import { trimExports } from './trimExports.ts'

/** PostGIS as the engine needs it: its library (a WebAssembly side module), and PROJ's database. */
export interface PostgisParts {
  readonly library: Uint8Array
  readonly projDb: Uint8Array
}

/**
 * Takes from the stock bundle (20 MB packed, 94 MB unpacked) the two files that a database made from the template
 * needs: no raster, no topology, no SQL scripts; and of the library's exports those that anything asks for. Node only.
 */
export async function trimPostgis(): Promise<PostgisParts> {
  const bundle = createRequire(import.meta.url)
    .resolve('@electric-sql/pglite-postgis')
    .replace(/[^/\\]*$/, 'postgis.tar.gz')
  const tar = await promisify(gunzip)(await readFile(bundle))
  return {
    library: trimExports(fileInTar(tar, 'lib/postgresql/postgis-3.so')),
    projDb: await projSubset(fileInTar(tar, 'share/proj/proj.db')),
  }
}
