import { readDirectory } from '../zipDirectory.ts'

const MOST_ENTRIES = 10_000

/** True for a zip that holds a shapefile and no archive of ours. Looks at its directory only. */
export function holdsShapefile(zip: Uint8Array): boolean {
  const entries = readDirectory(zip, MOST_ENTRIES)
  if (!Array.isArray(entries)) return false
  const names = entries.map(({ path }) => path.toLowerCase())
  return names.some((name) => name.endsWith('.shp')) && !names.some((name) => /(?:^|\/)farm\.json$/.test(name))
}
