/** One shapefile's parts by their ending. */
export interface ShapefileParts {
  /** Path without ending, as it is named in faults. */
  readonly path: string
  readonly shp: Uint8Array
  readonly dbf: Uint8Array | null
  readonly prj: Uint8Array | null
  readonly cpg: Uint8Array | null
}

/** The shapefiles among files, whatever the case of their endings. */
export function shapefilesIn(files: ReadonlyMap<string, Uint8Array>): ShapefileParts[] {
  const byName = new Map([...files].map(([path, bytes]) => [path.toLowerCase(), bytes]))
  return [...files].flatMap(([path, shp]) => {
    if (!/\.shp$/i.test(path)) return []
    const stem = path.slice(0, -4)
    const part = (ending: string) => byName.get(`${stem.toLowerCase()}.${ending}`) ?? null
    return [{ path: stem, shp, dbf: part('dbf'), prj: part('prj'), cpg: part('cpg') ?? part('cst') }]
  })
}
