import { cornerStep, lonLatOfMercator, mercatorOf } from './mercator.ts'
import { type PixelGround, pixelGround } from './pixelGround.ts'
import type { PhotoCorners, PlacedPixels, Raster } from './placement.ts'
import { resample } from './resample.ts'

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
/** Pixels between the places where the true transform is reckoned; between them it is interpolated. A slanted picture bends more. */
const cellPx = 32
const slantedCellPx = 8

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

/**
 * Redraws a photo's raster (the whole photo, at any size) upright on Web Mercator, bilinear, so that MapLibre shows
 * every pixel, not only the corners, in its true place; what lies outside the photo is see-through. Pixels keep their
 * mean size on the map unless a side would grow past `maxSidePx`. The transform is reckoned every 32 pixels (every 8 of a
 * slanted picture, whose bend is its perspective's) and interpolated between, which moves a pixel of side s by some s²·32²·tan φ / 8R: under a hundredth of itself for any
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

  const cell = photo.placement.perspective === undefined ? cellPx : slantedCellPx
  const cellsX = Math.ceil(widthPx / cell)
  const cellsY = Math.ceil(heightPx / cell)
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

  const turn = Math.floor((west + box.east) / 2)
  const corner = (x: number, y: number) => lonLatOfMercator([x - turn, y])
  return {
    raster: resample(raster, { cellsX, cellsY, cols, rows }, widthPx, heightPx),
    corners: [corner(west, north), corner(box.east, north), corner(box.east, box.south), corner(west, box.south)],
  }
}
