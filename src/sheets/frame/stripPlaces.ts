import type { PickWeek } from '../../desk/door.ts'
import { addDays, daysBetween, seasonEnds } from '../show/days.ts'

/** Places along the season strip, each a share (0–1) of its length. */
export interface StripPlaces {
  readonly from: string
  readonly days: number
  readonly months: readonly { readonly from: string; readonly at: number }[]
  readonly bars: readonly {
    readonly week: PickWeek
    readonly at: number
    readonly width: number
    readonly height: number
  }[]
}

/** Lays a season out along the strip: its months, and a bar a week, the fullest week's as high as the strip. */
export function stripPlaces(season: number, startMonth: number, weeks: readonly PickWeek[]): StripPlaces {
  const { from, next } = seasonEnds(season, startMonth)
  const days = daysBetween(from, next)
  const most = Math.max(0, ...weeks.map(({ kg }) => kg))
  const months = Array.from({ length: 12 }, (_, n) => {
    const month = startMonth - 1 + n
    const first = `${String(season + Math.floor(month / 12)).padStart(4, '0')}-${String((month % 12) + 1).padStart(2, '0')}-01`
    return { from: first, at: daysBetween(from, first) / days }
  })
  const bars = weeks.map((week) => {
    const at = daysBetween(from, week.from)
    return { week, at: at / days, width: Math.min(7, days - at) / days, height: most > 0 ? week.kg / most : 0 }
  })
  return { from, days, months, bars }
}

/** The day at a share of the strip's length. */
export function dayAt({ from, days }: StripPlaces, share: number): string {
  return addDays(from, Math.min(days - 1, Math.max(0, Math.floor(share * days))))
}

/** How many days into the season a day is. */
export function daysIn({ from }: StripPlaces, on: string): number {
  return daysBetween(from, on)
}

/** The same day of another season, or its last where the month is shorter. */
export function inSeason(on: string, from: number, to: number): string {
  const year = Number(on.slice(0, 4)) + (to - from)
  const day = `${String(year).padStart(4, '0')}${on.slice(4)}`
  return on.slice(5) === '02-29' && !isLeap(year) ? `${day.slice(0, 8)}28` : day
}

const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
