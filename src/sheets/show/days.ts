const DAY_MS = 86_400_000

/** True for a day that exists. */
export function isCalendarDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const ms = Date.parse(`${text}T00:00:00Z`)
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === text
}

export function addDays(on: string, days: number): string {
  return new Date(Date.parse(`${on}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10)
}

/** Whole days from one day to another. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS)
}

/** First day of a season that starts in the given month (1–12), and of the one after it. */
export function seasonEnds(season: number, startMonth: number): { from: string; next: string } {
  const first = (year: number) => `${String(year).padStart(4, '0')}-${String(startMonth).padStart(2, '0')}-01`
  return { from: first(season), next: first(season + 1) }
}

/** The season that a day belongs to. */
export function seasonOfDay(on: string, startMonth: number): number {
  const year = Number(on.slice(0, 4))
  return Number(on.slice(5, 7)) >= startMonth ? year : year - 1
}

/** The day of a clock, where the person is. */
export function dayOf(clock: Date): string {
  const two = (n: number) => String(n).padStart(2, '0')
  return `${String(clock.getFullYear()).padStart(4, '0')}-${two(clock.getMonth() + 1)}-${two(clock.getDate())}`
}
