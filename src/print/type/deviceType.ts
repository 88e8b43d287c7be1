import type { Face } from '../marks.ts'

/** Letters in whatever font the device has, for scripts that the bundled fonts lack. */
export interface DeviceType {
  /** Width over the type size. */
  width(text: string, face: Face): number
  /** The words as a PNG with clear ground, from `upMm` above the baseline to `downMm` below it. */
  picture(text: string, face: Face, sizeMm: number, colour: string): DevicePicture
  /** Draws at type size 1 from the pen's origin, in its fill. */
  draw(pen: Pen, text: string, face: Face): void
}

type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D

export interface DevicePicture {
  readonly bytes: Uint8Array
  readonly upMm: number
  readonly downMm: number
}

const CSS_FONT: Readonly<Record<Face, string>> = {
  sans: '400 100px "Atkinson Hyperlegible Next", system-ui, sans-serif',
  sansBold: '700 100px "Atkinson Hyperlegible Next", system-ui, sans-serif',
  serif: '600 100px "Source Serif 4", serif',
  serifItalic: 'italic 400 100px "Source Serif 4", serif',
}

/** Dots to a millimetre of these pictures: 600 to the inch. */
const DOTS_PER_MM = 600 / 25.4
/** Room above and below the baseline, over the type size. */
const [UP, DOWN] = [1.15, 0.4]

/** The browser's own type, drawn on a canvas. */
export function browserType(): DeviceType {
  const canvas = document.createElement('canvas')
  const pen = canvas.getContext('2d')!
  return {
    width(text, face) {
      pen.font = CSS_FONT[face]
      return pen.measureText(text).width / 100
    },
    picture(text, face, sizeMm, colour) {
      const px = sizeMm * DOTS_PER_MM
      pen.font = CSS_FONT[face]
      canvas.width = Math.max(1, Math.ceil((pen.measureText(text).width / 100) * px))
      canvas.height = Math.ceil((UP + DOWN) * px)
      pen.font = CSS_FONT[face].replace('100px', `${px}px`)
      pen.fillStyle = colour
      pen.fillText(text, 0, UP * px)
      const base64 = canvas.toDataURL('image/png').split(',')[1]!
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      return { bytes, upMm: UP * sizeMm, downMm: DOWN * sizeMm }
    },
    draw(on, words, face) {
      on.save()
      on.scale(0.01, 0.01)
      on.font = CSS_FONT[face]
      on.fillText(words, 0, 0)
      on.restore()
    },
  }
}
