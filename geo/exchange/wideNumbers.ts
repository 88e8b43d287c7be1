/** A whole number of a JSON text that no number of the program's holds exactly, by its digits. */
export interface WideNumber {
  readonly [DIGITS]: string
}

const DIGITS = Symbol('digits')
const MARK = '\u0000wide '
/** Whether a text may hold such a number: they have 16 digits at the least. */
const MAY_HOLD = /[\s,:[]-?\d{16,}\s*[,\]}]/
const STRING_OR_NUMBER = /"[^"\\]*(?:\\.[^"\\]*)*"|-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?/g

/** Parses JSON as `JSON.parse` does, but that whole numbers which would be rounded come as `WideNumber`. Throws where it is none. */
export function parseExactly(text: string): unknown {
  const value: unknown = JSON.parse(text)
  if (!MAY_HOLD.test(text)) return value
  const marked = text.replace(STRING_OR_NUMBER, (token) => (isRounded(token) ? JSON.stringify(MARK + token) : token))
  return JSON.parse(marked, (_, one: unknown) =>
    typeof one === 'string' && one.startsWith(MARK) ? { [DIGITS]: one.slice(MARK.length) } : one,
  )
}

/** The digits of a `WideNumber`, or null for any other value. */
export function wideDigits(value: unknown): string | null {
  return typeof value === 'object' && value !== null && DIGITS in value ? (value as WideNumber)[DIGITS] : null
}

/** A number that is written again by the same digits is a number as programs write them, and is kept. */
function isRounded(token: string): boolean {
  const number = Number(token)
  return /^-?\d{16,}$/.test(token) && String(number) !== token && BigInt(token) !== asWhole(number)
}

const asWhole = (value: number): bigint | null => (Number.isFinite(value) ? BigInt(value) : null)
