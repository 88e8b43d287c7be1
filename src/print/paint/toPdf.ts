import PDFDocument from 'pdfkit'
import { toBytes } from 'pdfkit/output'
import {
  type Fill,
  type Mark,
  mapStep,
  type Page,
  type PathMark,
  type Step,
  type Stroke,
  type TextMark,
} from '../marks.ts'
import type { OpenFont, Type } from '../type/openFonts.ts'

type Pdf = InstanceType<typeof PDFDocument>
const POINTS_PER_MM = 72 / 25.4

export interface PdfTold {
  readonly title: string
  /** What it is of, for the file's own record. */
  readonly subject: string
  readonly madeMs: number
}

/**
 * Pages as a PDF: paths and letters as such, fonts embedded with the letters used. Photos must have been made images
 * before (`photosAsImages`). Letters that no bundled font has are pictures that carry their text.
 */
export async function toPdf(pages: readonly Page[], type: Type, told: PdfTold): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    // No font to start with: its first choice is one that is not embedded.
    font: null,
    margin: 0,
    lang: 'en',
    displayTitle: true,
    info: { Title: told.title, Subject: told.subject, Creator: 'Selion', CreationDate: new Date(told.madeMs) },
  } as unknown as PDFKit.PDFDocumentOptions)
  const whole = toBytes(pdf)
  const registered = new Set<OpenFont>()
  const use = (font: OpenFont) => {
    if (!registered.has(font)) {
      registered.add(font)
      pdf.registerFont(font.name, font.bytes as unknown as PDFKit.Mixins.PDFFontSource)
    }
    pdf.font(font.name)
  }
  for (const page of pages) {
    pdf.addPage({ size: [page.wideMm * POINTS_PER_MM, page.highMm * POINTS_PER_MM], margin: 0 })
    pdf.scale(POINTS_PER_MM)
    paintAll(pdf, page.marks, type, use)
  }
  pdf.end()
  return whole
}

type Use = (font: OpenFont) => void

function paintAll(pdf: Pdf, marks: readonly Mark[], type: Type, use: Use): void {
  for (const mark of marks) {
    switch (mark.draw) {
      case 'path':
        paintPath(pdf, mark)
        break
      case 'text':
        paintText(pdf, mark, type, use)
        break
      case 'group':
        pdf.save()
        trace(pdf, mark.clip)
        pdf.clip('even-odd')
        paintAll(pdf, mark.marks, type, use)
        pdf.restore()
        break
      case 'image': {
        const { xMm, yMm, wideMm, highMm } = mark.box
        pdf.image(mark.bytes as unknown as PDFKit.Mixins.ImageSrc, xMm, yMm, { width: wideMm, height: highMm })
        break
      }
      case 'photo':
        throw new Error(`photo ${mark.id} has not been made an image`)
    }
  }
}

/** A thousandth of a millimetre is finer than any printer. */
const round = (mm: number) => Math.round(mm * 1000) / 1000

function trace(pdf: Pdf, steps: readonly Step[]): void {
  for (const step of steps) {
    if (step[0] === 'M') pdf.moveTo(round(step[1]), round(step[2]))
    else if (step[0] === 'L') pdf.lineTo(round(step[1]), round(step[2]))
    else if (step[0] === 'Z') pdf.closePath()
    else {
      const [, a, b, c, d, e, f] = step
      pdf.bezierCurveTo(round(a), round(b), round(c), round(d), round(e), round(f))
    }
  }
}

function paintPath(pdf: Pdf, { steps, fill, stroke }: PathMark): void {
  if (fill && fill.opacity > 0) {
    inFill(pdf, fill)
    trace(pdf, steps)
    pdf.fill('even-odd')
  }
  if (stroke && stroke.opacity > 0 && stroke.widthMm > 0) {
    inStroke(pdf, stroke)
    trace(pdf, steps)
    pdf.stroke()
  }
}

function inFill(pdf: Pdf, { colour, opacity }: Fill): void {
  pdf.fillColor(colour).fillOpacity(opacity)
}

function inStroke(pdf: Pdf, { colour, opacity, widthMm, dashMm, cap, join }: Stroke): void {
  pdf.strokeColor(colour).strokeOpacity(opacity).lineWidth(round(widthMm)).lineCap(cap).lineJoin(join)
  if (dashMm.length === 0) pdf.undash()
  else pdf.dash(dashMm.map((mm) => Math.max(0.001, round(mm))) as unknown as number, {})
}

function paintText(pdf: Pdf, mark: TextMark, type: Type, use: Use): void {
  const { text, at, sizeMm, face, colour, anchor, turnDeg, halo } = mark
  const runs = type.runs(text, face)
  const wide = runs.reduce((sum, { width }) => sum + width, 0) * sizeMm
  pdf.save()
  pdf.translate(round(at[0]), round(at[1]))
  if (turnDeg !== 0) pdf.rotate(turnDeg)
  let x = anchor === 'start' ? 0 : anchor === 'middle' ? -wide / 2 : -wide
  const places = runs.map((run) => {
    const from = x
    x += run.width * sizeMm
    return { run, from }
  })
  if (halo) {
    inStroke(pdf, { ...halo, opacity: 1, dashMm: [], cap: 'round', join: 'round' })
    for (const { run, from } of places) {
      trace(pdf, scaled(type.outline(run), sizeMm, from))
      pdf.stroke()
    }
  }
  inFill(pdf, { colour, opacity: 1 })
  for (const { run, from } of places) {
    if (run.font) {
      use(run.font)
      pdf.fontSize(sizeMm).text(run.text, from, 0, { lineBreak: false, baseline: 'alphabetic' })
    } else if (type.device) {
      const picture = type.device.picture(run.text, face, sizeMm, colour)
      const box = { width: run.width * sizeMm, height: picture.upMm + picture.downMm }
      pdf.markContent('Span', { actual: run.text })
      pdf.image(picture.bytes as unknown as PDFKit.Mixins.ImageSrc, from, -picture.upMm, box)
      pdf.endMarkedContent()
    }
  }
  pdf.restore()
}

const scaled = (steps: readonly Step[], by: number, dx: number): Step[] =>
  steps.map((step) => mapStep(step, (x, y) => [x * by + dx, y * by]))
