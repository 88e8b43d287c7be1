import type { Face } from '../marks.ts'
import type { Type } from './openFonts.ts'

/** Words broken into lines no wider than given; a single word that is too long is broken where it must be. */
export function wrap(type: Type, text: string, face: Face, sizeMm: number, widestMm: number): readonly string[] {
  const lines: string[] = []
  const fits = (line: string) => type.widthMm(line, sizeMm, face) <= widestMm + 1e-6
  let line = ''
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`
    if (fits(longer)) {
      line = longer
      continue
    }
    if (line !== '') lines.push(line)
    line = word
    while (!fits(line) && [...line].length > 1) {
      const letters = [...line]
      let keep = letters.length - 1
      while (keep > 1 && !fits(letters.slice(0, keep).join(''))) keep -= 1
      lines.push(letters.slice(0, keep).join(''))
      line = letters.slice(keep).join('')
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line)
  return lines
}
