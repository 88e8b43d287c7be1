import type { Mark, PathMark, Step, TextMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { type Picture, paintPhoto } from './photo.ts'

type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D

/** Draws marks on a canvas whose pen is set to millimetres. Photos without a picture in `pictures` are left out. */
export function toCanvas(pen: Pen, marks: readonly Mark[], type: Type, pictures: ReadonlyMap<string, Picture>): void {
  for (const mark of marks) {
    switch (mark.draw) {
      case 'path':
        paintPath(pen, mark)
        break
      case 'text':
        paintText(pen, mark, type)
        break
      case 'group':
        pen.save()
        pen.clip(traced(mark.clip), 'evenodd')
        toCanvas(pen, mark.marks, type, pictures)
        pen.restore()
        break
      case 'photo': {
        const picture = pictures.get(mark.id)
        if (picture) paintPhoto(pen, picture, mark.corners, mark.opacity)
        break
      }
      case 'image':
        throw new Error('an encoded image can be put in a PDF only')
    }
  }
}

function traced(steps: readonly Step[]): Path2D {
  const path = new Path2D()
  for (const step of steps) {
    if (step[0] === 'M') path.moveTo(step[1], step[2])
    else if (step[0] === 'L') path.lineTo(step[1], step[2])
    else if (step[0] === 'Z') path.closePath()
    else path.bezierCurveTo(step[1], step[2], step[3], step[4], step[5], step[6])
  }
  return path
}

function paintPath(pen: Pen, { steps, fill, stroke }: PathMark): void {
  const path = traced(steps)
  if (fill) {
    pen.globalAlpha = fill.opacity
    pen.fillStyle = fill.colour
    pen.fill(path, 'evenodd')
  }
  if (stroke && stroke.widthMm > 0) {
    pen.globalAlpha = stroke.opacity
    pen.strokeStyle = stroke.colour
    pen.lineWidth = stroke.widthMm
    pen.lineCap = stroke.cap
    pen.lineJoin = stroke.join
    pen.setLineDash([...stroke.dashMm])
    pen.stroke(path)
  }
  pen.globalAlpha = 1
}

function paintText(pen: Pen, { text, at, sizeMm, face, colour, anchor, turnDeg, halo }: TextMark, type: Type): void {
  const runs = type.runs(text, face)
  const wide = runs.reduce((sum, { width }) => sum + width, 0)
  pen.save()
  pen.translate(at[0], at[1])
  pen.rotate((turnDeg * Math.PI) / 180)
  pen.scale(sizeMm, sizeMm)
  pen.translate(anchor === 'start' ? 0 : anchor === 'middle' ? -wide / 2 : -wide, 0)
  pen.fillStyle = colour
  for (const run of runs) {
    if (run.font) {
      const path = traced(type.outline(run))
      if (halo) {
        pen.strokeStyle = halo.colour
        pen.lineWidth = halo.widthMm / sizeMm
        pen.lineJoin = 'round'
        pen.setLineDash([])
        pen.stroke(path)
      }
      pen.fill(path)
    } else type.device?.draw(pen, run.text, face)
    pen.translate(run.width, 0)
  }
  pen.restore()
}
