import { crc32 } from '../../../geo/exchange/crc32.ts'
import type { Page } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import type { Picture } from './photo.ts'
import { toCanvas } from './toCanvas.ts'

/** Length of the signature and of IHDR with its frame: what must come first in a PNG (PNG 3rd edition, 5.2 and 5.6). */
const HEAD = 8 + 25

/** A PNG that says how many dots it has to the inch: a pHYs chunk (PNG 3rd edition, 11.3.4.3), which tells them to the metre. */
export function withDotsPerInch(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = new Uint8Array(21)
  const view = new DataView(chunk.buffer)
  const perMetre = Math.round(dpi / 0.0254)
  view.setUint32(0, 9)
  chunk.set([0x70, 0x48, 0x59, 0x73], 4)
  view.setUint32(8, perMetre)
  view.setUint32(12, perMetre)
  chunk[16] = 1
  view.setUint32(17, crc32(chunk.subarray(4, 17)))
  const whole = new Uint8Array(png.length + chunk.length)
  whole.set(png.subarray(0, HEAD))
  whole.set(chunk, HEAD)
  whole.set(png.subarray(HEAD), HEAD + chunk.length)
  return whole
}

/** A page as a PNG of so many dots to the inch, on white. */
export async function toPng(
  page: Page,
  type: Type,
  pictures: ReadonlyMap<string, Picture>,
  dpi: number,
): Promise<Uint8Array> {
  const dots = dpi / 25.4
  const canvas = new OffscreenCanvas(Math.round(page.wideMm * dots), Math.round(page.highMm * dots))
  const pen = canvas.getContext('2d')
  if (!pen) throw new Error(`no canvas of ${canvas.width} by ${canvas.height} dots`)
  pen.fillStyle = '#ffffff'
  pen.fillRect(0, 0, canvas.width, canvas.height)
  pen.scale(dots, dots)
  toCanvas(pen, page.marks, type, pictures)
  const blob = await canvas.convertToBlob({ type: 'image/png' })
  return withDotsPerInch(new Uint8Array(await blob.arrayBuffer()), dpi)
}
