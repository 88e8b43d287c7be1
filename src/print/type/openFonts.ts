import { create, type Font } from 'fontkit'
import { FACES, type Face, type Step } from '../marks.ts'
import type { DeviceType } from './deviceType.ts'

/** A font file, under the name by which the PDF knows it. */
export interface OpenFont {
  readonly name: string
  readonly bytes: Uint8Array
  readonly font: Font
}

/** Words that one font sets; `font` is null where only the device has the letters. Widths are over the type size. */
export interface Run {
  readonly text: string
  readonly font: OpenFont | null
  readonly width: number
}

/** The bundled type: what sets which letters, and how wide. */
export interface Type {
  runs(text: string, face: Face): readonly Run[]
  widthMm(text: string, sizeMm: number, face: Face): number
  /** Outlines of a run's letters at size 1, its baseline starting at the origin, y downward. */
  outline(run: Run): readonly Step[]
  readonly device: DeviceType | null
  /** Every letter met so far that the bundled fonts lack. */
  readonly lacking: ReadonlySet<string>
}

/** Opens fonts from their files' bytes; `files` as in FONT_FILES. Letters that no file has are measured by `device`. */
export function openFonts(files: Readonly<Record<Face, readonly Uint8Array[]>>, device: DeviceType | null): Type {
  const opened = new Map<Uint8Array, OpenFont>()
  const open = (bytes: Uint8Array): OpenFont => {
    let found = opened.get(bytes)
    if (!found) {
      // fontkit wants Node's Buffer by its types; what it reads is any array of bytes.
      const font = create(bytes as unknown as Parameters<typeof create>[0])
      if (!('layout' in font)) throw new Error('a collection of fonts where one font was wanted')
      found = { name: `font ${opened.size}`, bytes, font }
      opened.set(bytes, found)
    }
    return found
  }
  const fonts = Object.fromEntries(FACES.map((face) => [face, files[face].map(open)])) as Record<Face, OpenFont[]>
  const clusters = new Intl.Segmenter(undefined, { granularity: 'grapheme' })
  const lacking = new Set<string>()
  const known = new Map<string, readonly Run[]>()
  const outlines = new Map<string, readonly Step[]>()

  const fontFor = (cluster: string, face: Face): OpenFont | null => {
    const points = [...cluster].map((letter) => letter.codePointAt(0)!)
    const found = fonts[face].find(({ font }) => points.every((point) => font.hasGlyphForCodePoint(point)))
    if (!found) lacking.add(cluster)
    return found ?? null
  }
  const measure = (text: string, font: OpenFont | null, face: Face): Run => {
    if (font) return { text, font, width: font.font.layout(text).advanceWidth / font.font.unitsPerEm }
    return { text, font, width: device?.width(text, face) ?? [...text].length }
  }
  const runs = (given: string, face: Face): readonly Run[] => {
    const key = `${face} ${given}`
    const before = known.get(key)
    if (before) return before
    // Spaces of every width are set as plain ones; a line has no breaks in it.
    const text = given.normalize('NFC').replace(/\s/g, ' ')
    const parts: { text: string; font: OpenFont | null }[] = []
    for (const { segment } of clusters.segment(text)) {
      const last = parts.at(-1)
      const font = segment === ' ' && last ? last.font : fontFor(segment, face)
      if (last && last.font === font) last.text += segment
      else parts.push({ text: segment, font })
    }
    const measured = parts.map((part) => measure(part.text, part.font, face))
    known.set(key, measured)
    return measured
  }
  return {
    device,
    lacking,
    runs,
    widthMm: (text, sizeMm, face) => runs(text, face).reduce((sum, { width }) => sum + width, 0) * sizeMm,
    outline(run) {
      if (!run.font) return []
      const key = `${run.font.name} ${run.text}`
      const before = outlines.get(key)
      if (before) return before
      const drawn = outlineOf(run.font.font, run.text)
      outlines.set(key, drawn)
      return drawn
    },
  }
}

function outlineOf(font: Font, text: string): readonly Step[] {
  const { glyphs, positions } = font.layout(text)
  const k = 1 / font.unitsPerEm
  const steps: Step[] = []
  let x = 0
  glyphs.forEach((glyph, i) => {
    const { xAdvance, xOffset, yOffset } = positions[i]!
    const at = (px: number, py: number): [number, number] => [(x + xOffset + px) * k, -(yOffset + py) * k]
    let [hx, hy] = [0, 0]
    for (const { command, args } of glyph.path.commands) {
      const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = args
      switch (command) {
        case 'moveTo':
        case 'lineTo':
          steps.push([command === 'moveTo' ? 'M' : 'L', ...at(a, b)])
          ;[hx, hy] = [a, b]
          break
        case 'quadraticCurveTo':
          // A quadratic's cubic: handles two thirds of the way from its ends to its own handle.
          steps.push([
            'C',
            ...at(hx + (2 / 3) * (a - hx), hy + (2 / 3) * (b - hy)),
            ...at(c + (2 / 3) * (a - c), d + (2 / 3) * (b - d)),
            ...at(c, d),
          ])
          ;[hx, hy] = [c, d]
          break
        case 'bezierCurveTo':
          steps.push(['C', ...at(a, b), ...at(c, d), ...at(e, f)])
          ;[hx, hy] = [e, f]
          break
        case 'closePath':
          steps.push(['Z'])
      }
    }
    x += xAdvance
  })
  return steps
}
