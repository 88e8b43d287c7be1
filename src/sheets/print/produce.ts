import type { DrawnMap } from '../../map/farmMap.ts'
import { ON_PAPER } from '../../map/theme/palette.ts'
import type { Picture } from '../../print/paint/photo.ts'
import { photosAsImages } from '../../print/paint/photosAsImages.ts'
import type { Type } from '../../print/type/openFonts.ts'
import type { LaidOut } from './layOut.ts'

/** A file to hand over. */
export interface Produced {
  readonly name: string
  readonly bytes: Uint8Array
  readonly mime: string
}

/** Longer side of a large photo on paper: 400 mm at 260 dots an inch. */
const WHOLE_SIDE_PX = 4096

/** The photos of a map, decoded. One that can't be decoded is left out, as the map leaves it out. */
export async function decodePhotos({ photos }: DrawnMap): Promise<ReadonlyMap<string, Picture>> {
  const decoded = await Promise.all(
    photos.map(async ({ id, picture }): Promise<readonly [string, Picture][]> => {
      try {
        if (picture.type === 'tiles') return [[id, await picture.whole(WHOLE_SIDE_PX)]]
        const source =
          picture.type === 'encoded'
            ? new Blob([picture.bytes as Uint8Array<ArrayBuffer>], { type: picture.mime })
            : new ImageData(picture.data as Uint8ClampedArray<ArrayBuffer>, picture.width, picture.height)
        return [[id, await createImageBitmap(source)]]
      } catch {
        return []
      }
    }),
  )
  return new Map(decoded.flat())
}

/** All pages as one PDF. */
export async function producePdf(
  { pages, frames }: LaidOut,
  type: Type,
  pictures: ReadonlyMap<string, Picture>,
  told: { readonly title: string; readonly subject: string; readonly madeMs: number },
): Promise<Produced> {
  const { toPdf } = await import('../../print/paint/toPdf.ts')
  const ready = await Promise.all(
    pages.map((page, n) => {
      const frame = frames[n]
      return frame ? photosAsImages(page, frame.box, ON_PAPER.paper, type, pictures) : page
    }),
  )
  return { name: `${fileName(told.title)}.pdf`, bytes: await toPdf(ready, type, told), mime: 'application/pdf' }
}

/** A page as a PNG, or several as PNGs in a zip. */
export async function producePng(
  { pages }: LaidOut,
  type: Type,
  pictures: ReadonlyMap<string, Picture>,
  dpi: number,
  title: string,
): Promise<Produced> {
  const { toPng } = await import('../../print/paint/png.ts')
  const name = fileName(title)
  const files: Record<string, [Uint8Array, { level: 0 }]> = {}
  for (const [n, page] of pages.entries()) {
    const bytes = await toPng(page, type, pictures, dpi)
    if (pages.length === 1) return { name: `${name}.png`, bytes, mime: 'image/png' }
    files[`${name} ${n + 1} ${fileName(page.name)}.png`] = [bytes, { level: 0 }]
  }
  const { zipSync } = await import('fflate')
  return { name: `${name}.zip`, bytes: zipSync(files), mime: 'application/zip' }
}

/** A name that every file system takes. */
const fileName = (text: string) => text.replace(/[<>:"/\\|?*\p{Cc}\s]+/gu, ' ').trim()
