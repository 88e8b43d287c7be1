import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Whether Debian's poppler-utils are at hand: another program's reading of what was written. */
export const hasPoppler = (() => {
  try {
    execFileSync('pdfinfo', ['-v'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()

/** Runs one of poppler's programs on a PDF; answers what it writes. */
export function poppler(
  program: 'pdfinfo' | 'pdftotext' | 'pdffonts' | 'pdfimages' | 'pdftocairo',
  pdf: Uint8Array,
  ...args: string[]
) {
  const folder = mkdtempSync(join(tmpdir(), 'selion-pdf-'))
  try {
    const [file, out] = [join(folder, 'in.pdf'), join(folder, 'out')]
    writeFileSync(file, pdf)
    if (program === 'pdfinfo' || program === 'pdffonts' || program === 'pdfimages')
      return execFileSync(program, [...args, file], { encoding: 'utf8' })
    execFileSync(program, [...args, file, out])
    return readFileSync(out, 'utf8')
  } finally {
    rmSync(folder, { recursive: true })
  }
}

export interface DrawnPath {
  /** Corners in millimetres, from the upper left of the page. */
  readonly corners: readonly (readonly [number, number])[]
  readonly strokeMm: number | null
}

/** The straight-sided paths of a PDF's page, as poppler draws them as SVG (in points). */
export function pathsOf(pdf: Uint8Array, page = 1): readonly DrawnPath[] {
  const svg = poppler('pdftocairo', pdf, '-svg', '-origpagesizes', '-noshrink', '-f', String(page), '-l', String(page))
  return [...svg.matchAll(/<path ([^>]*)\/>/g)].flatMap(([, attributes]) => {
    const of = (name: string) => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes!)?.[1]
    const d = of('d') ?? ''
    if (/C/.test(d)) return []
    const [a, b, c, e, tx, ty] = (of('transform')?.match(/-?[\d.]+(?:e-?\d+)?/g) ?? ['1', '0', '0', '1', '0', '0']).map(
      Number,
    )
    const corners = [...d.matchAll(/[ML] (-?[\d.]+) (-?[\d.]+)/g)].map(([, px, py]) => {
      const [x, y] = [Number(px), Number(py)]
      return [(a! * x + c! * y + tx!) * (25.4 / 72), (b! * x + e! * y + ty!) * (25.4 / 72)] as const
    })
    const style = of('style') ?? ''
    const width = /stroke:none/.test(style) ? undefined : /stroke-width:([\d.]+)/.exec(style)?.[1]
    const strokeMm = width === undefined ? null : Number(width) * Math.hypot(a!, b!) * (25.4 / 72)
    return [{ corners, strokeMm }]
  })
}
