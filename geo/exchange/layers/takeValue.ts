import { type Field, isDay } from '../../model/field.ts'
import { shown } from '../faults.ts'
import { type Read, readProperty } from '../readValue.ts'
import { wideDigits } from '../wideNumbers.ts'

/**
 * The value that a column of another program gives to a field of ours: numbers with a decimal comma, days as other
 * programs write them, yes and no in their spellings. What can't be read with certainty is not guessed.
 */
export function takeValue(field: Field<unknown>, value: unknown): Read {
  const text = typeof value === 'string' ? value.trim() : (wideDigits(value) ?? value)
  if (field.sql === 'date') return dayValue(field, text)
  if (typeof text !== 'string' || text === '') {
    if (field.sql === 'boolean' && (text === 1 || text === 0)) return readProperty(field, text === 1)
    if (field.sql === 'text' && typeof text === 'boolean') return readProperty(field, text ? 'yes' : 'no')
    if (field.sql === 'text' && typeof text === 'object' && text !== null)
      return readProperty(field, JSON.stringify(text))
    return readProperty(field, text)
  }
  if (field.sql === 'double precision' || field.sql === 'integer') {
    const number = numberOf(text)
    return number === null ? { reason: `${shown(text)} is not a number` } : readProperty(field, number)
  }
  if (field.sql === 'boolean') {
    if (/^(?:yes|true|y|t|1)$/i.test(text)) return readProperty(field, true)
    if (/^(?:no|false|n|f|0)$/i.test(text)) return readProperty(field, false)
  }
  return readProperty(field, text)
}

/** A decimal number with a point or a comma; spaces and apostrophes may part its thousands. */
export function numberOf(text: string): number | null {
  const plain = text.replace(/[\s\u00A0\u202F'’]/g, '').replace('−', '-')
  if (/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(plain)) return Number(plain)
  return /^[+-]?(?:\d+,\d*|,\d+)$/.test(plain) ? Number(plain.replace(',', '.')) : null
}

/** Years first, or day.month.year; a day written with strokes only where it can be but one. */
function dayValue(field: Field<unknown>, value: unknown): Read {
  if (typeof value === 'number')
    return readProperty(field, String(value).replace(/^(\d{4})(\d{2})(\d{2})$/, '$1-$2-$3'))
  if (typeof value !== 'string' || value === '') return readProperty(field, value)
  const text = value.trim()
  const [, year, month, day] =
    /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?$/.exec(text) ?? /^(\d{4})(\d{2})(\d{2})$/.exec(text) ?? []
  if (year) return readProperty(field, dayText(year, month!, day!))
  const dotted = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(text)
  if (dotted) return readProperty(field, dayText(dotted[3]!, dotted[2]!, dotted[1]!))
  const strokes = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/.exec(text)
  if (!strokes) return readProperty(field, text)
  const [, a, b, y] = strokes as unknown as [string, string, string, string]
  const [dayFirst, monthFirst] = [dayText(y, b, a), dayText(y, a, b)]
  if (isDay(dayFirst) && isDay(monthFirst) && dayFirst !== monthFirst)
    return { reason: `${shown(text)} may be ${dayFirst} or ${monthFirst}: write it as YYYY-MM-DD` }
  return readProperty(field, isDay(dayFirst) ? dayFirst : monthFirst)
}

function dayText(year: string, month: string, day: string): string {
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
}
