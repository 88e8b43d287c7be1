/** Kinds of record by the word for several of them. */
export const KIND_WORDS: Readonly<Record<string, string>> = {
  fields: 'fields',
  beds: 'beds',
  rows: 'rows',
  trees: 'trees',
  supports: 'supports',
  structures: 'structures',
  observations: 'observations',
  systems: 'support systems',
}

/** So many of a kind, in words. */
export function countWords(kind: string, count: number): string {
  const words = KIND_WORDS[kind] ?? kind
  return `${count.toLocaleString()} ${count === 1 ? words.replace(/s$/, '') : words}`
}

export interface PlannedField {
  readonly name: string
  readonly words: string
  readonly required?: boolean
  /** What happens where neither column nor constant gives it. */
  readonly otherwise?: string
}

const id: PlannedField = { name: 'id', words: 'id', otherwise: 'made' }
const name: PlannedField = { name: 'name', words: 'name', otherwise: 'numbered' }
const ownName: PlannedField = { name: 'name', words: 'name' }
const note: PlannedField = { name: 'note', words: 'note' }

/** The fields that columns can be given to, by kind. */
export const FIELD_WORDS: Readonly<Record<string, readonly PlannedField[]>> = {
  fields: [id, name, note],
  beds: [
    id,
    name,
    { name: 'field', words: 'field', otherwise: 'by where it lies' },
    { name: 'made', words: 'made on' },
    { name: 'retired', words: 'given up on' },
    note,
  ],
  rows: [id, ownName, { name: 'bed', words: 'bed', otherwise: 'by where it lies' }, { name: 'side', words: 'side' }],
  trees: [
    id,
    { name: 'species', words: 'species', required: true },
    ownName,
    { name: 'planted', words: 'planted on' },
    { name: 'removed', words: 'removed on' },
    { name: 'height_m', words: 'height, m' },
    { name: 'canopy_radius_m', words: 'canopy radius, m' },
    { name: 'measured', words: 'measured on' },
    { name: 'rootstock', words: 'rootstock' },
    { name: 'juglone', words: 'juglone (source or none)' },
  ],
  supports: [
    id,
    { name: 'system', words: 'system', required: true },
    { name: 'put_up', words: 'put up on' },
    { name: 'taken_down', words: 'taken down on' },
    { name: 'permanent', words: 'left up (yes or no)' },
    { name: 'height_m', words: 'height, m' },
    note,
  ],
  structures: [
    id,
    { name: 'kind', words: 'what it is', required: true },
    ownName,
    { name: 'height_m', words: 'height, m' },
    note,
  ],
  observations: [
    id,
    { name: 'on', words: 'seen on', required: true },
    { name: 'kind', words: 'what was seen', required: true },
    { name: 'severity', words: 'severity, 1 to 5' },
    note,
  ],
}
