import type { Level } from './level.ts'
import type { Raster } from './placement.ts'
import { TILE_PX, type TilesIndex, tilesFoot } from './tilesFile.ts'

/** Where a file of tiles is written, piece after piece. */
export interface Sink {
  append(bytes: Uint8Array): Promise<void>
}

/** Packs the pixels of one tile. */
export type EncodeTile = (tile: Raster, isOpaque: boolean) => Promise<Uint8Array>

interface Band {
  readonly widthPx: number
  readonly heightPx: number
  readonly rgba: Uint8ClampedArray<ArrayBuffer>
  /** Rows taken in so far, of the whole level. */
  taken: number
  readonly at: number[]
  readonly length: number[]
}

/** Two rows and every two columns averaged into one, weighted by opacity; at an odd end what is there. */
const halve = (upper: Uint8ClampedArray, lower: Uint8ClampedArray, widthPx: number, into: Uint8ClampedArray): void => {
  const half = Math.ceil(widthPx / 2)
  for (let x = 0; x < half; x += 1) {
    const a = 8 * x
    const b = 2 * x + 1 < widthPx ? a + 4 : a
    const [wa, wb, wc, wd] = [upper[a + 3]!, upper[b + 3]!, lower[a + 3]!, lower[b + 3]!]
    const opacity = wa + wb + wc + wd
    const to = 4 * x
    into[to + 3] = opacity / 4
    if (opacity === 0) continue
    for (let c = 0; c < 3; c += 1)
      into[to + c] = (wa * upper[a + c]! + wb * upper[b + c]! + wc * lower[a + c]! + wd * lower[b + c]!) / opacity
  }
}

/** Memory that `makeTiles` takes for its bands, in bytes. */
export const bandBytes = (base: Level): number => 4 * base.widthPx * (base.blockHeightPx + 2 * TILE_PX)

/**
 * Makes tiles of a photo at a half, a quarter … of its size (`from` 1), or at its full size too (`from` 0), until one
 * tile holds it all, in one pass over its rows: for photos without smaller copies, or whose parts cannot be read without
 * their neighbours. A band of rows of each level is in memory, never the whole. `step` hears of rows done and of all,
 * and may throw to stop.
 */
export const makeTiles = async (
  base: Level,
  from: 0 | 1,
  sink: Sink,
  encode: EncodeTile,
  step: (done: number, of: number) => Promise<void>,
): Promise<void> => {
  const bands: Band[] = []
  for (let w = base.widthPx, h = base.heightPx; ; w = Math.ceil(w / 2), h = Math.ceil(h / 2)) {
    const rgba = new Uint8ClampedArray(4 * w * Math.min(h, bands.length === 0 && from === 1 ? 2 : TILE_PX))
    bands.push({ widthPx: w, heightPx: h, rgba, taken: 0, at: [], length: [] })
    if (Math.max(w, h) <= TILE_PX) break
  }
  let written = 0
  const emit = async (band: Band, rows: number): Promise<void> => {
    for (let left = 0; left < band.widthPx; left += TILE_PX) {
      const widthPx = Math.min(TILE_PX, band.widthPx - left)
      const rgba = new Uint8ClampedArray(4 * widthPx * rows)
      for (let y = 0; y < rows; y += 1) {
        const at = 4 * (y * band.widthPx + left)
        rgba.set(band.rgba.subarray(at, at + 4 * widthPx), 4 * y * widthPx)
      }
      let least = 255
      let most = 0
      for (let i = 3; i < rgba.length; i += 4) {
        least = Math.min(least, rgba[i]!)
        most = Math.max(most, rgba[i]!)
      }
      const bytes = most === 0 ? new Uint8Array(0) : await encode({ rgba, widthPx, heightPx: rows }, least === 255)
      band.at.push(written)
      band.length.push(bytes.length)
      if (bytes.length > 0) await sink.append(bytes)
      written += bytes.length
    }
  }
  const take = async (level: number, row: Uint8ClampedArray): Promise<void> => {
    const band = bands[level]!
    const { widthPx, heightPx, rgba } = band
    const deep = rgba.length / (4 * widthPx)
    const line = band.taken % deep
    rgba.set(row, 4 * line * widthPx)
    band.taken += 1
    const isLast = band.taken === heightPx
    const next = bands[level + 1]
    if (next !== undefined && (band.taken % 2 === 0 || isLast)) {
      const upper = band.taken % 2 === 0 && line > 0 ? rgba.subarray(4 * (line - 1) * widthPx, 4 * line * widthPx) : row
      const smaller = new Uint8ClampedArray(4 * next.widthPx)
      halve(upper, row, widthPx, smaller)
      await take(level + 1, smaller)
    }
    if (level >= from && (band.taken % TILE_PX === 0 || isLast)) await emit(band, line + 1)
  }

  const row = new Uint8ClampedArray(4 * base.widthPx)
  for (let down = 0; down * base.blockHeightPx < base.heightPx; down += 1) {
    await step(down * base.blockHeightPx, base.heightPx)
    const blocks: Raster[] = []
    for (let across = 0; across * base.blockWidthPx < base.widthPx; across += 1)
      blocks.push(await base.read(across, down))
    const rows = blocks[0]!.heightPx
    for (let y = 0; y < rows; y += 1) {
      let to = 0
      for (const { rgba, widthPx } of blocks) {
        row.set(rgba.subarray(4 * y * widthPx, 4 * (y + 1) * widthPx), to)
        to += 4 * widthPx
      }
      await take(0, row)
    }
  }
  const index: TilesIndex = {
    form: 'selion tiles 1',
    levels: bands.slice(from).map(({ widthPx, heightPx, at, length }) => ({ widthPx, heightPx, at, length })),
  }
  await sink.append(tilesFoot(index))
}
