import type { BlockCache } from './blockCache.ts'
import { blockBytes, type Level } from './level.ts'
import { lonLatOfMercator } from './mercator.ts'
import type { PixelGround } from './pixelGround.ts'
import type { PlacedPixels, Raster } from './placement.ts'
import { resample } from './resample.ts'

/** A square of the Web Mercator map, in its units: the world is 1 across, from 180° W and from the north. */
export interface MapSquare {
  readonly west: number
  readonly north: number
  readonly side: number
}

/** The square of a tile: the world is one tile at z 0, and each has four below it. */
export const squareOf = ({ z, x, y }: { readonly z: number; readonly x: number; readonly y: number }): MapSquare => ({
  west: x * 2 ** -z,
  north: y * 2 ** -z,
  side: 2 ** -z,
})

/** Pixels between the places where the true transform is reckoned; between them it is interpolated (see `warpToMercator`). */
const cellPx = 32
/** Pixels of a level that one tile may need; more would mean that the photo has no copy small enough for the view. */
const mostWindowPx = 2 ** 24

interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** Where the nodes of a square lie in the full photo, in its pixels. */
const netOf = (ground: PixelGround, { west, north, side }: MapSquare, sidePx: number) => {
  const cells = Math.max(1, Math.round(sidePx / cellPx))
  const nodes = cells + 1
  const cols = new Float64Array(nodes * nodes)
  const rows = new Float64Array(nodes * nodes)
  for (let j = 0; j <= cells; j += 1)
    for (let i = 0; i <= cells; i += 1) {
      const [col, row] = ground.pixelOf(lonLatOfMercator([west + (i / cells) * side, north + (j / cells) * side]))
      cols[j * nodes + i] = col
      rows[j * nodes + i] = row
    }
  return { cells, cols, rows }
}

const boxOf = (cols: Float64Array, rows: Float64Array): Box => {
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity }
  for (let i = 0; i < cols.length; i += 1) {
    box.left = Math.min(box.left, cols[i]!)
    box.right = Math.max(box.right, cols[i]!)
    box.top = Math.min(box.top, rows[i]!)
    box.bottom = Math.max(box.bottom, rows[i]!)
  }
  return box
}

/** Photo pixels to one pixel of the tile, where there are fewest: along the steps between neighbouring nodes. */
const leastStep = (cols: Float64Array, rows: Float64Array, cells: number, sidePx: number): number => {
  const nodes = cells + 1
  let least = Infinity
  for (let j = 0; j < cells; j += 1)
    for (let i = 0; i < cells; i += 1) {
      const n = j * nodes + i
      const across = Math.hypot(cols[n + 1]! - cols[n]!, rows[n + 1]! - rows[n]!)
      const down = Math.hypot(cols[n + nodes]! - cols[n]!, rows[n + nodes]! - rows[n]!)
      least = Math.min(least, across, down)
    }
  return (least * cells) / sidePx
}

/** Level pixels that are averaged into one before the tile is drawn, so that none between is passed over. */
const sharpness = 0.9

/** The smallest level that still has a pixel for every pixel of the tile, give or take a tenth. */
const levelFor = (largestFirst: readonly Level[], fullWidthPx: number, step: number): Level =>
  largestFirst.findLast((level) => (step * level.widthPx) / fullWidthPx >= sharpness) ?? largestFirst[0]!

/** A part of a level from its blocks, every `times` × `times` pixels averaged into one, weighted by opacity. */
const gather = async (level: Level, box: Box, times: number, cache: BlockCache): Promise<Raster> => {
  const widthPx = Math.ceil((box.right - box.left) / times)
  const heightPx = Math.ceil((box.bottom - box.top) / times)
  const rgba = new Uint8ClampedArray(4 * widthPx * heightPx)
  const sums = times === 1 ? null : new Float32Array(4 * widthPx * heightPx)
  const counts = times === 1 ? null : new Uint16Array(widthPx * heightPx)
  const { blockWidthPx: bw, blockHeightPx: bh } = level
  for (let down = Math.floor(box.top / bh); down * bh < box.bottom; down += 1)
    for (let across = Math.floor(box.left / bw); across * bw < box.right; across += 1) {
      const block = await cache.get(`${level.name}/${across}/${down}`, () => level.read(across, down))
      const left = Math.max(box.left, across * bw)
      const right = Math.min(box.right, across * bw + block.widthPx)
      const top = Math.max(box.top, down * bh)
      const bottom = Math.min(box.bottom, down * bh + block.heightPx)
      for (let y = top; y < bottom; y += 1) {
        const from = 4 * ((y - down * bh) * block.widthPx + left - across * bw)
        if (sums === null || counts === null) {
          const to = 4 * ((y - box.top) * widthPx + left - box.left)
          rgba.set(block.rgba.subarray(from, from + 4 * (right - left)), to)
          continue
        }
        const line = Math.floor((y - box.top) / times) * widthPx
        for (let x = left, at = from; x < right; x += 1, at += 4) {
          const to = line + Math.floor((x - box.left) / times)
          const opacity = block.rgba[at + 3]!
          counts[to]! += 1
          sums[4 * to]! += opacity * block.rgba[at]!
          sums[4 * to + 1]! += opacity * block.rgba[at + 1]!
          sums[4 * to + 2]! += opacity * block.rgba[at + 2]!
          sums[4 * to + 3]! += opacity
        }
      }
    }
  if (sums !== null && counts !== null)
    for (let i = 0; i < counts.length; i += 1) {
      const opacity = sums[4 * i + 3]!
      if (opacity === 0) continue
      for (let c = 0; c < 3; c += 1) rgba[4 * i + c] = sums[4 * i + c]! / opacity
      rgba[4 * i + 3] = opacity / counts[i]!
    }
  return { rgba, widthPx, heightPx }
}

/**
 * Draws a square of the map, `sidePx` a side, from the photo's levels (largest first), or null where no part of the
 * photo lies in it. Reads only the blocks under it, of the smallest level that is sharp enough; every pixel comes
 * to lie in its true place, as by `warpToMercator`. 'too large' where no level is small enough to be read for this tile.
 */
export const drawTile = async (
  levels: readonly Level[],
  photo: PlacedPixels,
  ground: PixelGround,
  square: MapSquare,
  sidePx: number,
  cache: BlockCache,
): Promise<Raster | null | 'too large'> => {
  const { cells, cols, rows } = netOf(ground, square, sidePx)
  const about = boxOf(cols, rows)
  if (!(about.right > 0 && about.bottom > 0 && about.left < photo.widthPx && about.top < photo.heightPx)) return null
  const step = leastStep(cols, rows, cells, sidePx)
  const level = levelFor(levels, photo.widthPx, step)
  const perCol = level.widthPx / photo.widthPx
  const perRow = level.heightPx / photo.heightPx
  const times = Math.max(1, Math.round(step * perCol))
  const edge = 2 * times
  const onto = (at: number, most: number, round: (n: number) => number): number =>
    Math.min(most, Math.max(0, round(at / times) * times))
  const box: Box = {
    left: onto(about.left * perCol - edge, level.widthPx, Math.floor),
    top: onto(about.top * perRow - edge, level.heightPx, Math.floor),
    right: onto(about.right * perCol + edge, level.widthPx, Math.ceil),
    bottom: onto(about.bottom * perRow + edge, level.heightPx, Math.ceil),
  }
  if (!(box.right > box.left && box.bottom > box.top)) return null
  if (windowPx(level, box) > mostWindowPx) return 'too large'
  const window = await gather(level, box, times, cache)
  for (let i = 0; i < cols.length; i += 1) {
    cols[i] = (cols[i]! * perCol - box.left) / times
    rows[i] = (rows[i]! * perRow - box.top) / times
  }
  return resample(window, { cellsX: cells, cellsY: cells, cols, rows }, sidePx, sidePx)
}

/** Pixels of all blocks that a part of a level touches. */
const windowPx = (level: Level, box: Box): number => {
  const { blockWidthPx: bw, blockHeightPx: bh } = level
  const across = Math.ceil(box.right / bw) - Math.floor(box.left / bw)
  const down = Math.ceil(box.bottom / bh) - Math.floor(box.top / bh)
  return (across * down * blockBytes(level)) / 4
}
