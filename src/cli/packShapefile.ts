import { readdir, readFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { zipSync } from 'fflate'

/** A shapefile that lies bare in a folder as a zip, with the files of the same name beside it. */
export async function packShapefile(path: string): Promise<Uint8Array> {
  const stem = basename(path).slice(0, -'.shp'.length).toLowerCase()
  const parts = (await readdir(dirname(path))).filter((name) =>
    ['.shp', '.dbf', '.prj', '.cpg'].some((ending) => name.toLowerCase() === stem + ending),
  )
  const read = await Promise.all(
    parts.map(async (name) => [name, new Uint8Array(await readFile(join(dirname(path), name)))]),
  )
  return zipSync(Object.fromEntries(read) as Record<string, Uint8Array>, { level: 0 })
}
