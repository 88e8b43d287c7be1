/** First and last day of a season, `YYYY-MM-DD`, both inside it. */
export type SeasonSpan = { readonly from: string; readonly to: string }

/** Season S of a farm whose season starts in month m (1–12): from the first of that month in year S, for a year. */
export function seasonSpan(season: number, startMonth: number): SeasonSpan {
  const from = new Date(Date.UTC(season, startMonth - 1, 1))
  const to = new Date(Date.UTC(season + 1, startMonth - 1, 0))
  return { from: from.toISOString().slice(0, 10), to: to.toISOString().slice(0, 10) }
}

/** The season that a day (`YYYY-MM-DD`) belongs to. */
export function seasonOf(on: string, startMonth: number): number {
  const year = Number(on.slice(0, 4))
  return Number(on.slice(5, 7)) >= startMonth ? year : year - 1
}

/** The day of a season that is as many days after its first as a day (`YYYY-MM-DD`) is after that of its own. */
export function sameDayIn(season: number, on: string, startMonth: number): string {
  const own = seasonSpan(seasonOf(on, startMonth), startMonth)
  const days = (Date.parse(on) - Date.parse(own.from)) / 86_400_000
  const first = Date.parse(seasonSpan(season, startMonth).from)
  return new Date(first + days * 86_400_000).toISOString().slice(0, 10)
}
