import type { Raster } from '../../../geo/photo/placement.ts'
import { Refusal } from '../refusal.ts'

/** Decodes a picture to RGBA, no side longer than `maxSidePx`. */
export async function rasterOf(bytes: Uint8Array<ArrayBuffer>, mime: string, maxSidePx: number): Promise<Raster> {
  const bitmap = await createImageBitmap(new Blob([bytes], { type: mime }), { colorSpaceConversion: 'none' })
  const scale = Math.min(1, maxSidePx / Math.max(bitmap.width, bitmap.height))
  const widthPx = Math.max(1, Math.round(bitmap.width * scale))
  const heightPx = Math.max(1, Math.round(bitmap.height * scale))
  const context = new OffscreenCanvas(widthPx, heightPx).getContext('2d', { willReadFrequently: true })
  if (!context) throw new Refusal('photo', 'There is not enough memory to draw this photo.')
  context.imageSmoothingQuality = 'high'
  context.drawImage(bitmap, 0, 0, widthPx, heightPx)
  bitmap.close()
  const { data } = context.getImageData(0, 0, widthPx, heightPx)
  return { rgba: data as Uint8ClampedArray<ArrayBuffer>, widthPx, heightPx }
}
