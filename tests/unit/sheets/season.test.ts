import { describe, expect, it } from 'vitest'
import { dayAt, daysIn, inSeason, stripPlaces } from '../../../src/sheets/frame/stripPlaces.ts'
import { addDays, daysBetween, isCalendarDay, seasonEnds, seasonOfDay } from '../../../src/sheets/show/days.ts'

describe('calendar days', () => {
  it('are those of the Gregorian calendar', () => {
    // Years divisible by 100 but not by 400 have no 29 February (ISO 8601; M).
    expect(['2024-02-29', '2000-02-29', '2026-12-31'].every(isCalendarDay)).toBe(true)
    expect(['2026-02-29', '1900-02-29', '2026-13-01', '2026-04-31', '2026-1-1', ''].some(isCalendarDay)).toBe(false)
  })

  it('are counted without regard to the clocks that change', () => {
    expect(addDays('2026-03-28', 2)).toBe('2026-03-30')
    expect(addDays('2024-12-31', 1)).toBe('2025-01-01')
    expect(daysBetween('2024-01-01', '2025-01-01')).toBe(366)
  })

  it('belong to the season that began last', () => {
    expect(seasonOfDay('2026-02-28', 3)).toBe(2025)
    expect(seasonOfDay('2026-03-01', 3)).toBe(2026)
    expect(seasonEnds(2026, 3)).toEqual({ from: '2026-03-01', next: '2027-03-01' })
  })
})

describe('the season strip', () => {
  const weeks = [
    { from: '2026-03-01', kg: 10, picks: 3 },
    { from: '2026-03-08', kg: 40, picks: 9 },
    { from: '2027-02-28', kg: 20, picks: 1 },
  ]
  const places = stripPlaces(2026, 3, weeks)

  it('runs from the first day of the season to its last', () => {
    expect(places.days).toBe(365)
    expect(places.months.map(({ from }) => from.slice(0, 7))).toEqual([
      '2026-03',
      '2026-04',
      '2026-05',
      '2026-06',
      '2026-07',
      '2026-08',
      '2026-09',
      '2026-10',
      '2026-11',
      '2026-12',
      '2027-01',
      '2027-02',
    ]) // prettier-ignore
    expect(dayAt(places, 0)).toBe('2026-03-01')
    expect(dayAt(places, 1)).toBe('2027-02-28')
    expect(dayAt(places, -3)).toBe('2026-03-01')
  })

  it('gives every day a place that leads back to it', () => {
    for (let n = 0; n < places.days; n++) {
      const day = addDays(places.from, n)
      expect(dayAt(places, (daysIn(places, day) + 0.5) / places.days)).toBe(day)
    }
  })

  it('draws the fullest week full and the last no wider than the season', () => {
    expect(places.bars.map(({ height }) => height)).toEqual([0.25, 1, 0.5])
    const last = places.bars[2]!
    expect((last.at + last.width) * places.days).toBeCloseTo(365, 9)
  })

  it('is flat where nothing was picked', () => {
    expect(stripPlaces(2026, 1, [{ from: '2026-01-01', kg: 0, picks: 0 }]).bars[0]!.height).toBe(0)
  })

  it('keeps the day of the year when another season is looked at', () => {
    expect(inSeason('2026-09-14', 2026, 2024)).toBe('2024-09-14')
    expect(inSeason('2024-02-29', 2024, 2026)).toBe('2026-02-28')
    expect(inSeason('2024-02-29', 2024, 2028)).toBe('2028-02-29')
  })
})
