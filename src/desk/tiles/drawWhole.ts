import type { BlockCache } from '../../../geo/photo/blockCache.ts'
import { drawTile } from '../../../geo/photo/drawTile.ts'
import { mercatorOf } from '../../../geo/photo/mercator.ts'
import { Refusal } from '../refusal.ts'
import type { OpenPhoto } from './openPhotos.ts'
import { boundsOf } from './tiledPhoto.ts'

/** Drawn in squares of so many pixels, so that no more of the photo is in memory than for tiles of that size. */
const PIECE_PX = 512

/** The whole photo upright on the map, within its bounds, its longer side `maxSidePx`: for paper, which has no tiles. */
export async function drawWhole(
  { levels, placed, ground }: OpenPhoto,
  maxSidePx: number,
  cache: BlockCache,
  signal: AbortSignal,
): Promise<ImageBitmap> {
  const [west, south, east, north] = boundsOf(placed.corners)
  const [left, top] = mercatorOf([west, north])
  const [right, bottom] = mercatorOf([east, south])
  const perPx = Math.max(right - left, bottom - top) / maxSidePx
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round((right - left) / perPx)),
    Math.max(1, Math.round((bottom - top) / perPx)),
  )
  const context = canvas.getContext('2d')
  if (!context) throw new Refusal('photo', 'There is not enough memory to draw this photo.')
  for (let y = 0; y < canvas.height; y += PIECE_PX)
    for (let x = 0; x < canvas.width; x += PIECE_PX) {
      signal.throwIfAborted()
      const square = { west: left + x * perPx, north: top + y * perPx, side: PIECE_PX * perPx }
      const piece = await drawTile(levels, placed, ground, square, PIECE_PX, cache)
      if (piece === null || piece === 'too large') continue
      context.putImageData(new ImageData(piece.rgba, piece.widthPx, piece.heightPx), x, y)
    }
  return canvas.transferToImageBitmap()
}
