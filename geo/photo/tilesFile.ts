import type { ByteSource } from './byteSource.ts'
import type { Level } from './level.ts'
import type { Raster } from './placement.ts'

/** Side of a tile in the file. */
export const TILE_PX = 256

/** One size of the photo in a file of tiles: where each tile's bytes lie, row by row; length 0 where there is no picture. */
export interface TilesOfLevel {
  readonly widthPx: number
  readonly heightPx: number
  readonly at: readonly number[]
  readonly length: readonly number[]
}

export interface TilesIndex {
  readonly form: 'selion tiles 1'
  readonly levels: readonly TilesOfLevel[]
}

const MAGIC = 'SELTILE1'
const FOOT_BYTES = 16
const mostIndexBytes = 64 * 1024 * 1024

/** The end of a file of tiles: the index as JSON, its length in 8 bytes, and the mark by which a whole file is told. */
export const tilesFoot = (index: TilesIndex): Uint8Array<ArrayBuffer> => {
  const json = new TextEncoder().encode(JSON.stringify(index))
  const foot = new Uint8Array(json.length + FOOT_BYTES)
  foot.set(json)
  new DataView(foot.buffer).setBigUint64(json.length, BigInt(json.length), true)
  foot.set(new TextEncoder().encode(MAGIC), json.length + 8)
  return foot
}

/** The index of a file of tiles; null where the file is cut short or of another form, so that it is made anew. */
export const readTilesIndex = async (file: ByteSource): Promise<TilesIndex | null> => {
  if (file.bytes < FOOT_BYTES) return null
  const foot = await file.read(file.bytes - FOOT_BYTES, FOOT_BYTES)
  if (new TextDecoder().decode(foot.subarray(8)) !== MAGIC) return null
  const length = Number(new DataView(foot.buffer, foot.byteOffset).getBigUint64(0, true))
  if (length > mostIndexBytes || length + FOOT_BYTES > file.bytes) return null
  try {
    const json = await file.read(file.bytes - FOOT_BYTES - length, length)
    const index = JSON.parse(new TextDecoder().decode(json)) as TilesIndex
    return index.form === 'selion tiles 1' ? index : null
  } catch {
    return null
  }
}

/** Turns the bytes of one tile into pixels. */
export type DecodeTile = (bytes: Uint8Array<ArrayBuffer>) => Promise<Raster>

/** The levels that a file of tiles holds, largest first. */
export const tilesLevels = (file: ByteSource, index: TilesIndex, name: string, decode: DecodeTile): Level[] =>
  index.levels.map(({ widthPx, heightPx, at, length }) => ({
    name: `${name}:tiles${widthPx}`,
    widthPx,
    heightPx,
    blockWidthPx: TILE_PX,
    blockHeightPx: TILE_PX,
    async read(across, down) {
      const tile = down * Math.ceil(widthPx / TILE_PX) + across
      const width = Math.min(TILE_PX, widthPx - across * TILE_PX)
      const height = Math.min(TILE_PX, heightPx - down * TILE_PX)
      const bytes = length[tile] ?? 0
      if (bytes === 0) return { rgba: new Uint8ClampedArray(4 * width * height), widthPx: width, heightPx: height }
      return decode(await file.read(at[tile]!, bytes))
    },
  }))
