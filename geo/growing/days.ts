const DAY_MS = 86_400_000

/** A day (`YYYY-MM-DD`) so many days later. */
export function addDays(on: string, days: number): string {
  return new Date(Date.parse(`${on}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10)
}

/** Whole days from one day to another. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS)
}

/** The same day so many years on; 29 February becomes the 28th where the year has none. */
export function addYears(on: string, years: number): string {
  const year = String(Number(on.slice(0, 4)) + years).padStart(4, '0')
  const same = `${year}${on.slice(4)}`
  return Number.isNaN(Date.parse(same)) || new Date(Date.parse(same)).toISOString().slice(0, 10) !== same
    ? `${year}-02-28`
    : same
}

/** The later of two days. */
export function later(a: string, b: string): string {
  if (a < b) return b
  return a
}

/** The earlier of two days, null being a day that never comes. */
export function earlier(a: string | null, b: string | null): string | null {
  if (a === null || b === null) return a ?? b
  if (b < a) return b
  return a
}
