import { isDay } from '../model/field.ts'

/** Which comes first where a day is written in numbers alone. */
export type DayOrder = 'day first' | 'month first'

/** How the days of a notebook are to be read: the order (null where it is not known), and the year where none is written. */
export interface DayWay {
  readonly order: DayOrder | null
  readonly year: number | null
  /** Names of months, January first, as the person's language has them; English ones are known always. */
  readonly months: readonly string[]
}

/** A day, or why there is none. `asks`: what must be known of the notebook as a whole before it can be read. */
export type ReadDay = { readonly day: string } | { readonly reason: string; readonly asks?: 'order' | 'year' }

const ENGLISH = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
]
const NUMBERS = /^(\d{1,4})\s*[./\- ]\s*(\d{1,2})(?:\s*[./\- ]\s*(\d{1,4})?)?\.?$/

/**
 * Reads a day as people write it: 2024-08-03, 2024/8/3, 20240803, 3.8.2024, 8/3/24, 3 Aug 2024, August 3rd, 2024, with a
 * weekday or a time of day about it. Two digits of a year are of this century.
 */
export function readDay(text: string, way: DayWay): ReadDay {
  const told = withoutClock(text.trim())
  const compact = /^(\d{4})(\d{2})(\d{2})$/.exec(told)
  if (compact) return dayOf(text, compact[1]!, compact[2]!, compact[3]!)
  const numbers = NUMBERS.exec(told)
  if (numbers) return ofNumbers(text, numbers, way)
  const words = ofWords(told, way)
  return words ?? { reason: `“${text}” is not a day` }
}

/** The order that a column of days gives away: some number above 12 stands first, or second. Null where none does, or both. */
export function orderToldBy(texts: readonly string[]): DayOrder | null {
  let dayFirst = false
  let monthFirst = false
  for (const text of texts) {
    const [, first, second] = NUMBERS.exec(withoutClock(text.trim())) ?? []
    if (first === undefined || first.length > 2) continue
    if (Number(first) > 12) dayFirst = true
    if (Number(second) > 12) monthFirst = true
  }
  return dayFirst === monthFirst ? null : dayFirst ? 'day first' : 'month first'
}

function withoutClock(text: string): string {
  return text.replace(/[T ,]+\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*([ap]\.?m\.?|Z|[+-]\d{2}:?\d{2})?$/i, '')
}

function ofNumbers(text: string, [, first, second, third]: RegExpExecArray, { order, year }: DayWay): ReadDay {
  if (first!.length > 2) {
    return third === undefined ? { reason: `“${text}” is not a whole day` } : dayOf(text, first!, second!, third)
  }
  if (third !== undefined && third.length !== 2 && third.length !== 4) return { reason: `“${text}” is not a whole day` }
  const yearTold = third ?? (year === null ? null : String(year))
  if (yearTold === null) return { reason: `“${text}” tells no year`, asks: 'year' }
  const same = Number(first) === Number(second)
  const meant = Number(first) > 12 ? 'day first' : Number(second) > 12 ? 'month first' : same ? 'day first' : order
  if (meant === null) return { reason: `“${text}” may be day and month or month and day`, asks: 'order' }
  return meant === 'day first' ? dayOf(text, yearTold, second!, first!) : dayOf(text, yearTold, first!, second!)
}

function ofWords(told: string, { year, months }: DayWay): ReadDay | null {
  const words = told
    .toLowerCase()
    .replace(/(\d)(st|nd|rd|th)\b/g, '$1')
    .split(/[\s,./-]+/)
    .filter((word) => word !== '')
  const month = words.map((word) => monthOf(word, months)).find((found) => found !== null)
  if (month === undefined || month === null) return null
  const numbers = words.filter((word) => /^\d+$/.test(word))
  const [first, second] = numbers
  if (first === undefined || numbers.length > 2) return { reason: `“${told}” is not a whole day` }
  if (second === undefined && year === null) return { reason: `“${told}” tells no year`, asks: 'year' }
  const [day, yearTold] = first.length > 2 ? [second, first] : [first, second ?? String(year)]
  return day === undefined ? { reason: `“${told}” is not a whole day` } : dayOf(told, yearTold, String(month), day)
}

/** The number of a month named in full or by three letters or more; null where a word names none. */
function monthOf(word: string, months: readonly string[]): number | null {
  for (const names of [ENGLISH, months]) {
    const at = names.findIndex(
      (name) => name.toLowerCase() === word || (word.length >= 3 && name.toLowerCase().startsWith(word)),
    )
    if (at >= 0) return at + 1
  }
  return null
}

function dayOf(text: string, year: string, month: string, day: string): ReadDay {
  const whole = year.length === 2 ? `20${year}` : year
  const told = `${whole.padStart(4, '0')}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  return isDay(told) ? { day: told } : { reason: `“${text}” is no day of the calendar` }
}
