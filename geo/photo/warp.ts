import { cornerStep, lonLatOfMercator, mercatorOf } from './mercator.ts'
import { type PixelGround, pixelGround } from './pixelGround.ts'
import type { PhotoCorners, PlacedPixels, Raster } from './placement.ts'

/** A raster and the four corners between which it is true, pixel by pixel. */
export interface CorneredRaster {
  readonly raster: Raster
  readonly corners: PhotoCorners
}

/** An upright rectangle on the Web Mercator map. */
interface Box {
  readonly west: number
  readonly east: number
  readonly north: number
  readonly south: number
}

const edgePoints = 16
/** Pixels between the places where the true transform is reckoned; between them it is interpolated. */
const cellPx = 32

/** The upright rectangle about the photo's outline. */
const boxOf = (photo: PlacedPixels, ground: PixelGround): Box => {
  const xs: number[] = []
  const ys: number[] = []
  for (let i = 0; i <= edgePoints; i += 1) {
    const col = (i / edgePoints) * photo.widthPx
    const row = (i / edgePoints) * photo.heightPx
    for (const [c, r] of [
      [col, 0],
      [col, photo.heightPx],
      [0, row],
      [photo.widthPx, row],
    ] as const) {
      const [x, y] = mercatorOf(ground.lonLatOf(c, r))
      xs.push(x)
      ys.push(y)
    }
  }
  return { west: Math.min(...xs), east: Math.max(...xs), north: Math.min(...ys), south: Math.max(...ys) }
}

/** The rectangle grown outward until its corners lie on the steps that MapLibre rounds to, so that rounding moves nothing. */
const onSteps = (box: Box): Box => {
  const size = Math.max(box.east - box.west, box.south - box.north)
  for (let step = cornerStep(size * (1 + 1e-9)); ; step *= 2) {
    const grown = {
      west: Math.floor(box.west / step) * step,
      east: Math.ceil(box.east / step) * step,
      north: Math.floor(box.north / step) * step,
      south: Math.ceil(box.south / step) * step,
    }
    const grownSize = Math.max(grown.east - grown.west, grown.south - grown.north)
    if (cornerStep(grownSize * (1 + 1e-9)) <= step) return grown
  }
}

/** Colour of a raster at a place between pixel centres, opacity-weighted, into `out` at `to`; nothing outside it. */
const sampleInto = (from: Raster, col: number, row: number, out: Uint8ClampedArray, to: number): void => {
  const { rgba, widthPx, heightPx } = from
  if (!(col >= 0 && row >= 0 && col <= widthPx && row <= heightPx)) return
  const left = Math.min(widthPx - 1, Math.max(0, col - 0.5))
  const top = Math.min(heightPx - 1, Math.max(0, row - 0.5))
  const c0 = Math.floor(left)
  const r0 = Math.floor(top)
  const c1 = Math.min(c0 + 1, widthPx - 1)
  const r1 = Math.min(r0 + 1, heightPx - 1)
  const fx = left - c0
  const fy = top - r0
  const at = [
    4 * (r0 * widthPx + c0),
    4 * (r0 * widthPx + c1),
    4 * (r1 * widthPx + c0),
    4 * (r1 * widthPx + c1),
  ] as const
  const w0 = (1 - fx) * (1 - fy) * rgba[at[0] + 3]!
  const w1 = fx * (1 - fy) * rgba[at[1] + 3]!
  const w2 = (1 - fx) * fy * rgba[at[2] + 3]!
  const w3 = fx * fy * rgba[at[3] + 3]!
  const opacity = w0 + w1 + w2 + w3
  if (opacity === 0) return
  for (let k = 0; k < 3; k += 1)
    out[to + k] =
      (w0 * rgba[at[0] + k]! + w1 * rgba[at[1] + k]! + w2 * rgba[at[2] + k]! + w3 * rgba[at[3] + k]!) / opacity
  out[to + 3] = opacity
}

/**
 * Redraws a photo's raster (the whole photo, at any size) upright on Web Mercator, bilinear, so that MapLibre shows
 * every pixel, not only the corners, in its true place; what lies outside the photo is see-through. Pixels keep their
 * mean size on the map unless a side would grow past `maxSidePx`. The transform is reckoned every 32 pixels and
 * interpolated between, which moves a pixel of side s by some s²·32²·tan φ / 8R: under a hundredth of itself for any
 * pixel below 100 m.
 */
export const warpToMercator = (raster: Raster, photo: PlacedPixels, maxSidePx: number): CorneredRaster => {
  const ground = pixelGround(photo)
  const box = onSteps(boxOf(photo, ground))
  const { west, north } = box
  const [across, down] = [box.east - west, box.south - north]

  const right = mercatorOf(ground.lonLatOf(photo.widthPx, photo.heightPx / 2))
  const left = mercatorOf(ground.lonLatOf(0, photo.heightPx / 2))
  const sideUnits = Math.hypot(right[0] - left[0], right[1] - left[1]) / raster.widthPx
  const pxUnits = Math.max(sideUnits, Math.max(across, down) / maxSidePx)
  const widthPx = Math.max(1, Math.min(maxSidePx, Math.round(across / pxUnits)))
  const heightPx = Math.max(1, Math.min(maxSidePx, Math.round(down / pxUnits)))

  const cellsX = Math.ceil(widthPx / cellPx)
  const cellsY = Math.ceil(heightPx / cellPx)
  const nodesX = cellsX + 1
  const cols = new Float64Array(nodesX * (cellsY + 1))
  const rows = new Float64Array(nodesX * (cellsY + 1))
  for (let j = 0; j <= cellsY; j += 1)
    for (let i = 0; i <= cellsX; i += 1) {
      const at = lonLatOfMercator([west + (across * i) / cellsX, north + (down * j) / cellsY])
      const [col, row] = ground.pixelOf(at)
      cols[j * nodesX + i] = (col * raster.widthPx) / photo.widthPx
      rows[j * nodesX + i] = (row * raster.heightPx) / photo.heightPx
    }

  const rgba = new Uint8ClampedArray(4 * widthPx * heightPx)
  for (let y = 0; y < heightPx; y += 1) {
    const v = ((y + 0.5) * cellsY) / heightPx
    const j = Math.min(cellsY - 1, Math.floor(v))
    const fy = v - j
    for (let x = 0; x < widthPx; x += 1) {
      const u = ((x + 0.5) * cellsX) / widthPx
      const i = Math.min(cellsX - 1, Math.floor(u))
      const fx = u - i
      const n = j * nodesX + i
      const between = (nodes: Float64Array): number =>
        (1 - fy) * ((1 - fx) * nodes[n]! + fx * nodes[n + 1]!) +
        fy * ((1 - fx) * nodes[n + nodesX]! + fx * nodes[n + nodesX + 1]!)
      sampleInto(raster, between(cols), between(rows), rgba, 4 * (y * widthPx + x))
    }
  }

  const turn = Math.floor((west + box.east) / 2)
  const corner = (x: number, y: number) => lonLatOfMercator([x - turn, y])
  return {
    raster: { rgba, widthPx, heightPx },
    corners: [corner(west, north), corner(box.east, north), corner(box.east, box.south), corner(west, box.south)],
  }
}
