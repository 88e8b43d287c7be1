import type { Units } from '../show/figures.ts'

/** One thing that is asked of a record. `length` is typed in the person's unit and kept in metres, `number` as it is; `count` is a choice of whole numbers. */
export interface FormField {
  readonly name: string
  readonly label: string
  readonly is: 'text' | 'long' | 'day' | 'length' | 'number' | 'choice' | 'count' | 'yes'
  readonly required?: boolean
  /** Not asked at first: stands folded under "More". */
  readonly more?: boolean
  readonly hint?: string
  /** For a choice: what may be chosen. For text: what is offered. */
  readonly options?: readonly { readonly value: string; readonly words: string }[]
}

/** What can be drawn and changed here. */
export type FormKind = 'fields' | 'beds' | 'rows' | 'trees' | 'supports' | 'structures' | 'observations'

export const KIND_WORD: Readonly<Record<FormKind, string>> = {
  fields: 'field',
  beds: 'bed',
  rows: 'row',
  trees: 'tree',
  supports: 'support',
  structures: 'structure',
  observations: 'observation',
}

export interface Choices {
  readonly fields: FormField['options']
  readonly beds: FormField['options']
  readonly sides: FormField['options']
  readonly systems: FormField['options']
}

const NOT_KNOWN = 'Empty: not known, so shown on every day.'
const STRUCTURES = ['fence', 'gate', 'path', 'water line', 'shed', 'windbreak']
const SEEN = ['disease', 'animal damage', 'broken string', 'crack', 'wet spot']
const SEVERITY = ['not told', '1, slight', '2', '3', '4', '5, severe']
const SPECIES = ['black walnut', 'Persian walnut', 'apple', 'pear', 'hazel', 'fig', 'willow', 'hawthorn']

export function formFields(kind: FormKind, choices: Choices): readonly FormField[] {
  const note: FormField = { name: 'note', label: 'Note', is: 'long', more: true }
  const name: FormField = { name: 'name', label: 'Name', is: 'text', required: true }
  switch (kind) {
    case 'fields':
      return [name, note]
    case 'beds':
      return [
        name,
        { name: 'field', label: 'Field', is: 'choice', required: true, options: choices.fields ?? [] },
        { name: 'made', label: 'Made on', is: 'day', hint: NOT_KNOWN, more: true },
        { name: 'retired', label: 'Given up on', is: 'day', more: true },
        note,
      ]
    case 'rows':
      return [
        { ...name, required: false },
        { name: 'bed', label: 'Bed', is: 'choice', required: true, options: choices.beds ?? [] },
        { name: 'side', label: 'Side', is: 'text', options: choices.sides ?? [] },
      ]
    case 'trees':
      return [
        {
          name: 'species',
          label: 'Species',
          is: 'text',
          required: true,
          options: offered(SPECIES),
        },
        { ...name, required: false },
        { name: 'height_m', label: 'Height', is: 'length' },
        { name: 'canopy_radius_m', label: 'Canopy, from trunk to edge', is: 'length' },
        { name: 'measured', label: 'Measured on', is: 'day', more: true },
        { name: 'planted', label: 'Planted on', is: 'day', hint: NOT_KNOWN, more: true },
        { name: 'removed', label: 'Removed on', is: 'day', more: true },
        { name: 'rootstock', label: 'Rootstock', is: 'text', more: true },
        {
          name: 'juglone',
          label: 'Gives off juglone',
          is: 'choice',
          more: true,
          options: [
            { value: '', words: 'as its species does' },
            { value: 'source', words: 'yes' },
            { value: 'none', words: 'no' },
          ],
        },
      ]
    case 'supports':
      return [
        { name: 'system', label: 'System', is: 'choice', required: true, options: choices.systems ?? [] },
        { name: 'put_up', label: 'Put up on', is: 'day', hint: NOT_KNOWN },
        { name: 'taken_down', label: 'Taken down on', is: 'day', more: true },
        { name: 'permanent', label: 'Left up from season to season', is: 'yes' },
        { name: 'height_m', label: 'Height', is: 'length' },
        note,
      ]
    case 'structures':
      return [
        { name: 'kind', label: 'Kind', is: 'text', required: true, options: offered(STRUCTURES) },
        { ...name, required: false },
        { name: 'height_m', label: 'Height', is: 'length', hint: 'What it shades is reckoned from it.' },
        note,
      ]
    case 'observations':
      return [
        { name: 'kind', label: 'What was seen', is: 'text', required: true, options: offered(SEEN) },
        { name: 'on', label: 'Seen on', is: 'day', required: true },
        {
          name: 'severity',
          label: 'How bad',
          is: 'count',
          options: SEVERITY.map((words, n) => ({ value: n === 0 ? '' : String(n), words })),
        },
        { ...note, more: false },
      ]
  }
}

const offered = (all: readonly string[]) => all.map((value) => ({ value, words: value }))

export const lengthUnit = (units: Units) => (units === 'us' ? 'ft' : 'm')
