import { type Box, boxSteps, type Mark, type Page } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import type { Picture } from './photo.ts'
import { toCanvas } from './toCanvas.ts'

/** What a photo on paper is sharp enough at, and a file still light. */
const PHOTO_DPI = 200

/** A page whose photos are one JPEG in the box that they show in, on `paper` ground; as it was where it has none. */
export async function photosAsImages(
  page: Page,
  box: Box,
  paper: string,
  type: Type,
  pictures: ReadonlyMap<string, Picture>,
): Promise<Page> {
  const photos: Mark[] = []
  const without = (marks: readonly Mark[]): Mark[] =>
    marks.flatMap((mark): Mark[] => {
      if (mark.draw === 'photo') {
        photos.push(mark)
        return photos.length === 1 ? [{ draw: 'image', bytes: new Uint8Array(), box }] : []
      }
      return mark.draw === 'group' ? [{ ...mark, marks: without(mark.marks) }] : [mark]
    })
  const marks = without(page.marks)
  if (photos.length === 0) return page
  const dots = PHOTO_DPI / 25.4
  const canvas = new OffscreenCanvas(Math.ceil(box.wideMm * dots), Math.ceil(box.highMm * dots))
  const pen = canvas.getContext('2d')!
  pen.scale(canvas.width / box.wideMm, canvas.height / box.highMm)
  pen.translate(-box.xMm, -box.yMm)
  toCanvas(
    pen,
    [{ draw: 'path', steps: boxSteps(box), fill: { colour: paper, opacity: 1 }, stroke: null }, ...photos],
    type,
    pictures,
  )
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.86 })
  const bytes = new Uint8Array(await blob.arrayBuffer())
  const filled = (list: readonly Mark[]): Mark[] =>
    list.map((mark) =>
      mark.draw === 'image' && mark.bytes.length === 0
        ? { ...mark, bytes }
        : mark.draw === 'group'
          ? { ...mark, marks: filled(mark.marks) }
          : mark,
    )
  return { ...page, marks: filled(marks) }
}
