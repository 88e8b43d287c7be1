/** The sign that stands before decimals. */
export type Decimal = '.' | ','

/** A number with the words that follow it ("3 crates"), or why there is none. `asks`: a sign is a decimal's or thousands'. */
export type ReadQuantity =
  | { readonly quantity: number; readonly words: string }
  | { readonly reason: string; readonly asks?: 'decimal' }

const VULGAR: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
}
const FRACTION = '[½¼¾⅓⅔⅛⅜⅝⅞]'

/** Reads 3, 2.5, 2,5, 1 1/2, 1½, 1.234,5 and the like, and what is told in ("3 crates"). */
export function readQuantity(text: string, decimal: Decimal | null): ReadQuantity {
  const [, whole = '', part, over, under, words = ''] =
    new RegExp(`^(\\d[\\d.,'’\\u00a0]*)?\\s*(?:(${FRACTION})|(\\d+)\\s*/\\s*(\\d+))?\\s*(.*)$`).exec(text.trim()) ?? []
  // "1/2" alone: the whole took the upper number.
  const alone = /^(\d+)\s*\/\s*(\d+)\s*(.*)$/.exec(text.trim())
  if (alone) return checked(text, Number(alone[1]) / Number(alone[2]), alone[3]!)
  if (whole === '' && part === undefined && over === undefined) return { reason: `“${text}” is not a quantity` }
  const number = whole === '' ? 0 : readNumber(whole, decimal)
  if (number === 'either') return { reason: `“${text}” may be thousands or decimals`, asks: 'decimal' }
  if (number === null) return { reason: `“${text}” is not a quantity` }
  const more = part === undefined ? (over === undefined ? 0 : Number(over) / Number(under)) : VULGAR[part]!
  return checked(text, number + more, words)
}

function checked(text: string, quantity: number, words: string): ReadQuantity {
  if (!Number.isFinite(quantity) || quantity <= 0) return { reason: `“${text}” is not above zero` }
  return { quantity, words: words.trim() }
}

/** The decimal sign that a column of numbers gives away; null where it gives none. */
export function decimalToldBy(texts: readonly string[]): Decimal | null {
  for (const text of texts) {
    const number = /^\d[\d.,'’\u00a0]*/.exec(text.trim())?.[0]
    if (number === undefined) continue
    const last = number.lastIndexOf('.') > number.lastIndexOf(',') ? '.' : ','
    const [signs, decimals] = [number.split(last).length - 1, number.length - number.lastIndexOf(last) - 1]
    const both = number.includes('.') && number.includes(',')
    if (signs === 1 && (both || decimals !== 3 || number.startsWith('0'))) return last
    if (signs > 1) return last === '.' ? ',' : '.'
  }
  return null
}

function readNumber(told: string, decimal: Decimal | null): number | 'either' | null {
  const text = told.replace(/['’\u00a0]/g, '').replace(/[.,]$/, '')
  if (/^\d+$/.test(text)) return Number(text)
  const sign = decimal ?? decimalToldBy([text])
  if (sign === null) return 'either'
  const plain = text.replaceAll(sign === '.' ? ',' : '.', '').replace(sign, '.')
  return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : null
}
