import type { GeoTIFFImage } from 'geotiff'
import type { ByteSource } from './byteSource.ts'

/** A strip longer than this is read in parts, where it is not packed. */
const mostStripBytes = 256 * 1024

/**
 * Makes an unpacked TIFF that was written in long strips (often a single one for the whole picture) readable by parts:
 * the bytes of an unpacked strip are its rows one after another, so it may as well be taken for many short ones. Any
 * other image is left as it is.
 */
export const inSmallStrips = (image: GeoTIFFImage, source: ByteSource): void => {
  const { fileDirectory } = image
  const isPacked = (fileDirectory.getValue('Compression') ?? 1) !== 1
  if (image.isTiled || isPacked) return
  const samples = image.getSamplesPerPixel()
  const isApart = image.planarConfiguration === 2
  const bits = Array.from({ length: samples }, (_, i) => image.getBitsPerSample(i))
  if (bits.some((one) => one % 8 !== 0 || one !== bits[0])) return
  const width = image.getWidth()
  const height = image.getHeight()
  const rowBytes = (width * bits[0]! * (isApart ? 1 : samples)) / 8
  const rowsTold = image.getTileHeight()
  if (rowsTold * rowBytes <= mostStripBytes) return
  const rows = Math.max(1, Math.floor(mostStripBytes / rowBytes))
  const stripsTold = Math.ceil(height / rowsTold)

  image.getTileHeight = () => rows
  image.getBlockHeight = (y) => Math.min(rows, height - y * rows)
  image.getTileOrStrip = async (x, y, sample) => {
    const top = y * rows
    const bottom = Math.min(height, top + rows)
    const out = new Uint8Array((bottom - top) * rowBytes)
    for (let row = top; row < bottom; ) {
      const strip = Math.floor(row / rowsTold)
      const until = Math.min(bottom, (strip + 1) * rowsTold)
      const index = (isApart ? sample * stripsTold : 0) + strip
      const offset = Number(await fileDirectory.loadValueIndexed('StripOffsets', index))
      const length = (until - row) * rowBytes
      const part = await source.read(offset + (row - strip * rowsTold) * rowBytes, length)
      if (part.length < length) throw new Error('its pixels end before the picture does')
      out.set(part, (row - top) * rowBytes)
      row = until
    }
    return { x, y, sample, data: out.buffer }
  }
}
