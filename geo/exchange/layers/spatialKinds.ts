import type { Kind } from '../../model/kind.ts'
import { KINDS } from '../../model/kinds.ts'

/** The kinds of record that have a place of their own. */
export const SPATIAL: readonly Kind[] = KINDS.filter((kind) => kind.shapes)

/** Words by which layers of other programs tell what they hold. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  fields: ['field', 'fields', 'parcel', 'parcels', 'paddock', 'paddocks', 'plot', 'plots', 'block', 'blocks'],
  beds: ['bed', 'beds'],
  rows: ['row', 'rows', 'plantrow', 'plantrows'],
  trees: ['tree', 'trees', 'orchard'],
  supports: ['support', 'supports', 'trellis', 'trellises'],
  structures: ['structure', 'structures', 'fence', 'fences', 'building', 'buildings', 'path', 'paths', 'gate', 'gates'],
  observations: ['observation', 'observations', 'scouting'],
}

/** The kind that a text names: `beds`, `Bed`, `structures_lines`, `North fence`; null where it names none, or two. */
export function kindByWord(text: string): Kind | null {
  const words = new Set(text.toLowerCase().split(/[^\p{L}]+/u))
  const named = SPATIAL.filter((kind) => WORDS[kind.name]?.some((word) => words.has(word)))
  return named.length === 1 ? named[0]! : null
}

/** The kind whose own name a value is, whatever its case; null else. */
export function kindByName(value: unknown): Kind | null {
  if (typeof value !== 'string') return null
  const name = value.trim().toLowerCase()
  return SPATIAL.find((kind) => kind.name === name) ?? null
}
