import type { FormField } from '../ground/formFields.ts'

const JUGLONE: NonNullable<FormField['options']> = [
  { value: '', words: 'not told' },
  { value: 'sensitive', words: 'sensitive' },
  { value: 'tolerant', words: 'tolerant' },
  { value: 'unknown', words: 'unknown' },
]
const SURE: NonNullable<FormField['options']> = [
  { value: '', words: 'not told' },
  { value: 'listed', words: 'listed' },
  { value: 'inferred', words: 'inferred from its kin' },
  { value: 'not listed', words: 'on no list found' },
]

/** What is asked of a crop, each value followed by where it comes from. `families`: those the farm's other crops are of. */
export function cropFields(families: readonly string[]): readonly FormField[] {
  const source = (name: string): FormField => ({ name, label: 'Its source', is: 'text' })
  return [
    { name: 'name', label: 'Name', is: 'text', required: true },
    {
      name: 'family',
      label: 'Family',
      is: 'text',
      required: true,
      hint: 'By its botanical name; rotation looks at it.',
      options: families.map((value) => ({ value, words: value })),
    },
    {
      name: 'return_years',
      label: 'Years before its family returns',
      is: 'number',
      hint: 'Empty: as is usual for its family.',
    },
    source('return_source'),
    { name: 'climbs', label: 'Climbs', is: 'yes' },
    source('climbs_source'),
    { name: 'juglone', label: 'Near walnuts', is: 'choice', options: JUGLONE },
    { name: 'juglone_sure', label: 'How sure', is: 'choice', options: SURE },
    source('juglone_source'),
    { name: 'usual_spacing_m', label: 'Closest usual spacing in the row', is: 'length' },
    source('spacing_source'),
    { name: 'yield_low_kg_per_m2', label: 'Usual yield, low, kg/m²', is: 'number' },
    { name: 'yield_high_kg_per_m2', label: 'Usual yield, high, kg/m²', is: 'number' },
    source('yield_source'),
    {
      name: 'touches_soil',
      label: 'What is eaten touches the soil',
      is: 'yes',
      hint: 'For the days from raw manure to harvest.',
    },
    source('touches_soil_source'),
    { name: 'first_pick_days', label: 'Days from setting out to the first pick', is: 'number' },
    source('first_pick_source'),
    { name: 'stands_years', label: 'Years that a planting stands', is: 'number' },
    source('stands_source'),
  ]
}
