import type { Pending } from '../state/drawing.ts'
import { measured } from '../state/shown.ts'
import { systems } from '../state/systems.ts'
import type { Choices } from './formFields.ts'
import { sidesOf } from './sideOf.ts'

/** What a record may be put to: the farm's fields, beds and support systems, and the sides of the bed that a row is in. */
export function choicesFor({ values }: Pending): Choices {
  const told = measured.value ?? { fields: [], beds: [] }
  const bed = told.beds.find(({ id }) => id === values.bed)
  return {
    fields: told.fields.map(({ id, name }) => ({ value: id, words: name })),
    beds: told.beds.map(({ id, name }) => ({ value: id, words: name })),
    sides: sidesOf(bed?.bearing_deg ?? 90).map((side) => ({ value: side, words: side })),
    systems: systems.value.map(({ id, name }) => ({ value: id, words: name })),
  }
}
