import type { Raster } from '../../../geo/photo/placement.ts'
import { Refusal } from '../refusal.ts'

const QUALITY = 0.9

function canvasOf(
  width: number,
  height: number,
): { canvas: OffscreenCanvas; context: OffscreenCanvasRenderingContext2D } {
  const canvas = new OffscreenCanvas(width, height)
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (!context) throw new Refusal('photo', 'There is not enough memory to draw this photo.')
  return { canvas, context }
}

/** Packs a tile: as JPEG where all of it is picture, else as WebP with its opacity (PNG where the browser has no WebP). */
export async function encodeTile({ rgba, widthPx, heightPx }: Raster, isOpaque: boolean): Promise<Uint8Array> {
  const { canvas, context } = canvasOf(widthPx, heightPx)
  context.putImageData(new ImageData(rgba, widthPx, heightPx), 0, 0)
  const blob = await canvas.convertToBlob({ type: isOpaque ? 'image/jpeg' : 'image/webp', quality: QUALITY })
  return new Uint8Array(await blob.arrayBuffer())
}

/** Unpacks a tile that `encodeTile` packed, whatever of the three it is. */
export async function decodeTile(bytes: Uint8Array<ArrayBuffer>): Promise<Raster> {
  const bitmap = await createImageBitmap(new Blob([bytes]), { colorSpaceConversion: 'none' })
  const { width, height } = bitmap
  const { context } = canvasOf(width, height)
  context.drawImage(bitmap, 0, 0)
  bitmap.close()
  const { data } = context.getImageData(0, 0, width, height)
  return { rgba: data as Uint8ClampedArray<ArrayBuffer>, widthPx: width, heightPx: height }
}
