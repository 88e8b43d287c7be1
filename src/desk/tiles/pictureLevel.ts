import type { Level } from '../../../geo/photo/level.ts'
import { TILE_PX } from '../../../geo/photo/tilesFile.ts'
import { Refusal } from '../refusal.ts'
import { megabytes } from './photoRoom.ts'

/** What unpacking a picture in one piece may take: a JPEG, PNG or WebP has no parts that could be unpacked alone. */
const MOST_UNPACKED_BYTES = 512 * 1024 * 1024

/** A picture that the browser unpacks as a whole, handed out in bands of rows. Unpacked when its first band is read. */
export interface PictureLevel extends Level {
  /** Lets go of the unpacked picture. */
  release(): void
}

export function pictureLevel(
  blob: () => Promise<Blob>,
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  name: string,
): PictureLevel {
  let unpacked: Promise<ImageBitmap> | null = null
  const unpack = async (): Promise<ImageBitmap> => {
    const bytes = 4 * widthPx * heightPx
    const mend = 'Make a tiled TIFF of it with "gdal_translate -of COG -co COMPRESS=JPEG" and place that instead.'
    if (bytes > MOST_UNPACKED_BYTES)
      throw new Refusal('photo', `Unpacked it takes ${megabytes(bytes)} of memory, more than a page should. ${mend}`)
    try {
      return await createImageBitmap(await blob(), { colorSpaceConversion: 'none' })
    } catch {
      throw new Refusal('photo', `The browser could not unpack it to its full size. ${mend}`)
    }
  }
  return {
    name: `${name}:whole`,
    widthPx,
    heightPx,
    blockWidthPx: widthPx,
    blockHeightPx: TILE_PX,
    async read(_, down) {
      unpacked ??= unpack()
      const bitmap = await unpacked
      const top = down * TILE_PX
      const rows = Math.min(TILE_PX, heightPx - top)
      const context = new OffscreenCanvas(widthPx, rows).getContext('2d', { willReadFrequently: true })
      if (!context) throw new Refusal('photo', 'There is not enough memory to draw this photo.')
      context.drawImage(bitmap, 0, top, widthPx, rows, 0, 0, widthPx, rows)
      const { data } = context.getImageData(0, 0, widthPx, rows)
      return { rgba: data as Uint8ClampedArray<ArrayBuffer>, widthPx, heightPx: rows }
    },
    release() {
      const held = unpacked
      unpacked = null
      void held?.then(
        (bitmap) => bitmap.close(),
        () => undefined,
      )
    },
  }
}
