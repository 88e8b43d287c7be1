import type { Field } from '../model/field.ts'
import { shown } from './faults.ts'
import { wideDigits } from './wideNumbers.ts'

/** A value of a field, or why there is none. */
export type Read = { readonly value: unknown } | { readonly reason: string }

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/

/** The value that a CSV cell gives to a field. Numbers are plain decimals with a point; an empty cell is not known. */
export function readCell(field: Field<unknown>, cell: string): Read {
  if (cell === '') return checked(field, null, cell)
  if (field.sql === 'double precision' || field.sql === 'integer') {
    if (DECIMAL.test(cell)) return checked(field, Number(cell), cell)
    const comma = /^[+-]?\d+,\d+$/.test(cell) ? ` (write it with a point: ${cell.replace(',', '.')})` : ''
    return { reason: `${shown(cell)} is not a number${comma}` }
  }
  if (field.sql === 'boolean') return checked(field, spelt(cell), cell)
  return checked(field, cell, cell)
}

/** The value that a JSON property gives to a field. A number is taken for a text's digits; an empty text is not known. */
export function readProperty(field: Field<unknown>, property: unknown): Read {
  if (property === undefined || property === null) return checked(field, null, property)
  const digits = wideDigits(property)
  if (digits !== null) return field.sql === 'text' ? checked(field, digits, digits) : { reason: notExact(digits) }
  const asText = field.sql === 'text' && typeof property === 'number' && Number.isFinite(property)
  if (property === '' && !field.required) return { value: null }
  return checked(field, asText ? String(property) : property, property)
}

function checked(field: Field<unknown>, value: unknown, told: unknown): Read {
  if (value === null && field.required) return { reason: 'is missing' }
  const result = field.schema.safeParse(value)
  if (!result.success) {
    const issue = result.error.issues[0]!
    const path = issue.path.length > 0 ? `at ${issue.path.join('.')}: ` : ''
    return { reason: `${shown(told)} ${path}${issue.message}` }
  }
  const unkept = value !== null && (typeof value === 'object' || typeof value === 'string') ? whyNotKept(value) : null
  if (unkept) return { reason: unkept }
  return { value: Object.is(result.data, -0) ? 0 : result.data }
}

function spelt(cell: string): boolean | string {
  const word = cell.toLowerCase()
  if (word === 'yes' || word === 'true') return true
  if (word === 'no' || word === 'false') return false
  return cell
}

const notExact = (digits: string) =>
  `holds the whole number ${digits}, which can't be kept exactly: write it in quotes, as text`

const DEEPEST = 64

/** Why a value that the format does not know can't be kept exactly in the database, or null. */
export function whyNotKept(value: unknown, depth = 0): string | null {
  if (depth > DEEPEST) return `is nested more than ${DEEPEST} deep`
  if (typeof value === 'number') return Number.isFinite(value) ? null : 'holds a number too large to be kept'
  if (typeof value === 'string') {
    if (value.includes('\0')) return 'holds a NUL character'
    return value.isWellFormed() ? null : 'holds half of a surrogate pair, which is no character'
  }
  const digits = wideDigits(value)
  if (digits !== null) return notExact(digits)
  if (Array.isArray(value)) {
    for (const item of value) {
      const reason = whyNotKept(item, depth + 1)
      if (reason) return reason
    }
    return null
  }
  if (typeof value !== 'object' || value === null) return null
  for (const [name, item] of Object.entries(value)) {
    const reason = whyNotKept(name) ?? whyNotKept(item, depth + 1)
    if (reason) return reason
  }
  return null
}
