import { access, mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { gunzip } from 'node:zlib'
import { fileInTar } from './tar.ts'

const CACHE = fileURLToPath(new URL('../../../node_modules/.cache/selion/', import.meta.url))
const SQL = 'share/postgresql/contrib/postgis-3.6/spatial_ref_sys.sql'
/** Changes with what the lines below say. */
const FORM = 1

/** Projections that photos come in and that are read here. */
const READ = /^\+proj=(?:tmerc|utm|lcc|longlat|laea|aea|somerc|sterea)\b/
const LINE = /^\((\d+), 'EPSG', \d+, '(?:PROJCS|GEOGCS)\["([^"]+)".*\]', '([^']+)'\)[,;]?$/

/**
 * The book of known grids as a text file: a line for each, with its EPSG code, its name, and its definition for PROJ,
 * parted by tabs. Taken from the table `spatial_ref_sys` that PostGIS ships (made from the EPSG registry), for the
 * projections read here. Made on first need and kept in the cache. Node only.
 */
export async function gridFile(now = Date.now()): Promise<string> {
  const entry = createRequire(import.meta.url).resolve('@electric-sql/pglite-postgis')
  const root = entry.slice(0, entry.lastIndexOf('dist'))
  const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as { version: string }
  const path = join(CACHE, `grids-${version}-${FORM}.txt`)
  const isThere = await access(path).then(
    () => true,
    () => false,
  )
  if (isThere) return path
  const bundle = entry.replace(/[^/\\]*$/, 'postgis.tar.gz')
  const sql = new TextDecoder().decode(fileInTar(await promisify(gunzip)(await readFile(bundle)), SQL))
  const making = `${path}-${process.pid}-${now}`
  await mkdir(CACHE, { recursive: true })
  await writeFile(making, gridLines(sql))
  await rename(making, path)
  return path
}

function gridLines(sql: string): string {
  const lines: string[] = []
  for (const line of sql.split('\n')) {
    const [, code, name, told] = LINE.exec(line.trim()) ?? []
    if (code === undefined || name === undefined || told === undefined || !READ.test(told)) continue
    lines.push(
      [
        code,
        name,
        told
          .replace(/ \+no_defs/g, '')
          .replace(/ \+type=crs/g, '')
          .trim(),
      ].join('\t'),
    )
  }
  if (lines.length < 5000) throw new Error(`only ${lines.length} grids were found in ${SQL}`)
  return `${lines.join('\n')}\n`
}
