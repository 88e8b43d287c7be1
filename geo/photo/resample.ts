import type { Raster } from './placement.ts'

/** Where the pixels of one raster lie in another, at the nodes of an even net over the first; between nodes in proportion. */
export interface Net {
  readonly cellsX: number
  readonly cellsY: number
  /** Place of each node in the other raster, in its pixels from its upper-left corner; (cellsX + 1) · (cellsY + 1) of each. */
  readonly cols: Float64Array
  readonly rows: Float64Array
}

/** Colour of a raster at a place, bilinear and opacity-weighted, into `out` at `to`; leaves `out` as it is outside the raster. */
const sampleInto = (from: Raster, col: number, row: number, out: Uint8ClampedArray, to: number): void => {
  const { rgba, widthPx, heightPx } = from
  if (!(col >= 0 && row >= 0 && col <= widthPx && row <= heightPx)) return
  const left = col < 0.5 ? 0 : col > widthPx - 0.5 ? widthPx - 1 : col - 0.5
  const top = row < 0.5 ? 0 : row > heightPx - 0.5 ? heightPx - 1 : row - 0.5
  const c0 = Math.floor(left)
  const r0 = Math.floor(top)
  const fx = left - c0
  const fy = top - r0
  const a = 4 * (r0 * widthPx + c0)
  const b = c0 + 1 < widthPx ? a + 4 : a
  const below = r0 + 1 < heightPx ? 4 * widthPx : 0
  const c = a + below
  const d = b + below
  const wa = (1 - fx) * (1 - fy) * rgba[a + 3]!
  const wb = fx * (1 - fy) * rgba[b + 3]!
  const wc = (1 - fx) * fy * rgba[c + 3]!
  const wd = fx * fy * rgba[d + 3]!
  const opacity = wa + wb + wc + wd
  if (opacity === 0) return
  out[to] = (wa * rgba[a]! + wb * rgba[b]! + wc * rgba[c]! + wd * rgba[d]!) / opacity
  out[to + 1] = (wa * rgba[a + 1]! + wb * rgba[b + 1]! + wc * rgba[c + 1]! + wd * rgba[d + 1]!) / opacity
  out[to + 2] = (wa * rgba[a + 2]! + wb * rgba[b + 2]! + wc * rgba[c + 2]! + wd * rgba[d + 2]!) / opacity
  out[to + 3] = opacity
}

/** A raster of `widthPx` × `heightPx` whose pixels are looked up in another through a net. */
export const resample = (from: Raster, net: Net, widthPx: number, heightPx: number): Raster => {
  const { cellsX, cellsY, cols, rows } = net
  const rgba = new Uint8ClampedArray(4 * widthPx * heightPx)
  const nodes = cellsX + 1
  for (let y = 0; y < heightPx; y += 1) {
    const v = ((y + 0.5) * cellsY) / heightPx
    const j = Math.min(cellsY - 1, Math.floor(v))
    const fy = v - j
    for (let x = 0; x < widthPx; x += 1) {
      const u = ((x + 0.5) * cellsX) / widthPx
      const i = Math.min(cellsX - 1, Math.floor(u))
      const fx = u - i
      const n = j * nodes + i
      const m = n + nodes
      const w11 = fx * fy
      const w10 = fx - w11
      const w01 = fy - w11
      const w00 = 1 - fx - w01
      const col = w00 * cols[n]! + w10 * cols[n + 1]! + w01 * cols[m]! + w11 * cols[m + 1]!
      const row = w00 * rows[n]! + w10 * rows[n + 1]! + w01 * rows[m]! + w11 * rows[m + 1]!
      sampleInto(from, col, row, rgba, 4 * (y * widthPx + x))
    }
  }
  return { rgba, widthPx, heightPx }
}
