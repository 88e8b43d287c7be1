import { METRES_PER_FOOT, type Units } from '../show/figures.ts'
import type { FormField } from './formFields.ts'

/** What is typed in a form, as text, by field. */
export type Typed = Readonly<Record<string, string>>

/** A record's values as they are typed. Lengths are told to the millimetre, in the person's unit. */
export function asTyped(fields: readonly FormField[], record: Readonly<Record<string, unknown>>, units: Units): Typed {
  return Object.fromEntries(fields.map((field) => [field.name, typedOf(field, record[field.name], units)]))
}

function typedOf(field: FormField, value: unknown, units: Units): string {
  if (value === null || value === undefined) return ''
  if (field.is === 'length') return String(Number((Number(value) / metresPer(units)).toFixed(3)))
  return String(value)
}

/** What was typed, as the record keeps it, or what is wrong with it by field. Empty is "not known". */
export function fromTyped(
  fields: readonly FormField[],
  typed: Typed,
  units: Units,
): { readonly record: Record<string, unknown>; readonly faults: Record<string, string> } {
  const record: Record<string, unknown> = {}
  const faults: Record<string, string> = {}
  for (const field of fields) {
    const text = (typed[field.name] ?? '').trim()
    if (text === '') {
      record[field.name] = null
      if (field.required) faults[field.name] = `A ${field.label.toLowerCase()} is needed.`
    } else if (field.is === 'length' || field.is === 'number') {
      const value = readNumber(text)
      if (value === null) faults[field.name] = `“${text}” is not a number.`
      else if (value < 0) faults[field.name] = 'It can’t be below zero.'
      else record[field.name] = field.is === 'length' ? value * metresPer(units) : value
    } else if (field.is === 'count') record[field.name] = Number(text)
    else record[field.name] = field.is === 'yes' ? text === 'true' : text
  }
  return { record, faults }
}

/** A number as people type it, with a point or a comma before its decimals; null where it is none. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(/\s/g, '').replace(',', '.')
  return /^[-+−]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain.replace('−', '-')) : null
}

const metresPer = (units: Units) => (units === 'us' ? METRES_PER_FOOT : 1)
