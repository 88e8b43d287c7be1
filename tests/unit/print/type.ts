import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { FACES, type Face } from '../../../src/print/marks.ts'
import { openFonts, type Type } from '../../../src/print/type/openFonts.ts'

const { resolve } = createRequire(import.meta.url)
const file = (name: string) => {
  const pack = name.startsWith('source') ? 'source-serif-4' : 'atkinson-hyperlegible-next'
  return new Uint8Array(readFileSync(resolve(`@fontsource/${pack}/files/${name}.woff`)))
}

/** The bundled type without a device to fall back on. */
export function bundledType(): Type {
  const sans = ['atkinson-hyperlegible-next-latin-400-normal', 'atkinson-hyperlegible-next-latin-ext-400-normal']
  const files: Record<Face, string[]> = {
    sans: [...sans, 'source-serif-4-cyrillic-400-normal', 'source-serif-4-greek-400-normal'],
    sansBold: ['atkinson-hyperlegible-next-latin-700-normal'],
    serif: ['source-serif-4-latin-600-normal', 'source-serif-4-latin-ext-600-normal'],
    serifItalic: ['source-serif-4-latin-400-italic', 'source-serif-4-latin-ext-400-italic'],
  }
  const opened = new Map<string, Uint8Array>()
  const open = (name: string) => {
    const bytes = opened.get(name) ?? file(name)
    opened.set(name, bytes)
    return bytes
  }
  return openFonts(
    Object.fromEntries(FACES.map((face) => [face, files[face].map(open)])) as Record<Face, Uint8Array[]>,
    null,
  )
}
