/** A grid of the EPSG registry: its name, and its definition as a PROJ string. */
export interface Grid {
  readonly name: string
  readonly proj: string
}

/** Looks a grid up by its EPSG code; null where it is not known. */
export type GridBook = (epsg: number) => Promise<Grid | null>

/** A book in which nothing stands: only the grids that are known without one are read. */
export const emptyGridBook: GridBook = async () => null

/** A book from its text: a line for each grid with code, name and definition, parted by tabs. Read when first asked. */
export const gridBookOf = (read: () => Promise<string>): GridBook => {
  let text: Promise<string> | null = null
  return async (epsg) => {
    text ??= read()
    const all = `\n${await text.catch((error: unknown) => {
      text = null
      throw error
    })}`
    const at = all.indexOf(`\n${epsg}\t`)
    if (at === -1) return null
    const [, name, proj] = all.slice(at + 1, all.indexOf('\n', at + 1)).split('\t')
    return { name: name!, proj: proj! }
  }
}
