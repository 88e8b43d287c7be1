/** What a key of the number pad does to what is typed so far, told with a point whatever the locale. */
export type PadKey = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | '.' | '½' | '⌫'

const LONGEST = 7

/** The typed quantity after a key: digits are added, ½ adds a half to the whole before it, ⌫ takes the last away. */
export function afterKey(typed: string, key: PadKey): string {
  if (key === '⌫') return typed.slice(0, -1)
  if (key === '½') return typed.includes('.') ? typed : `${typed === '' ? '0' : typed}.5`
  if (key === '.') return typed.includes('.') ? typed : `${typed === '' ? '0' : typed}.`
  if (typed.length >= LONGEST) return typed
  return typed === '0' ? key : typed + key
}

/** What may be typed into the figure itself: a comma is taken for the point, the rest is left out. */
export function asQuantity(text: string): string {
  const [whole = '', ...decimals] = text
    .replaceAll(',', '.')
    .replace(/[^\d.]/g, '')
    .split('.')
  const typed = decimals.length > 0 ? `${whole}.${decimals.join('')}` : whole
  return typed.slice(0, LONGEST)
}

/** The quantity typed, or null where there is none above zero. */
export function quantityOf(typed: string): number | null {
  const value = Number(typed)
  return typed !== '' && Number.isFinite(value) && value > 0 ? value : null
}
