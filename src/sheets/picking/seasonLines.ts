import type { SeasonPicking } from '../../desk/door.ts'

type CropWeeks = SeasonPicking['weeks']

/** What a line is called where nothing was told. */
export const UNTOLD = 'not told'

export interface WeekLine {
  readonly week: string
  readonly kg: number
  readonly picks: number
}

/** Picked by week over all crops, in the order of weeks. */
export function byWeek(weeks: CropWeeks): readonly WeekLine[] {
  const found = new Map<string, WeekLine>()
  for (const { week, kg, picks } of weeks) {
    const before = found.get(week) ?? { week, kg: 0, picks: 0 }
    found.set(week, { week, kg: before.kg + kg, picks: before.picks + picks })
  }
  return [...found.values()].sort((a, b) => (a.week < b.week ? -1 : 1))
}

export interface CropLine {
  readonly crop: string | null
  readonly name: string
  readonly kg: number
  readonly picks: number
  readonly weeks: readonly WeekLine[]
}

/** Picked by crop, the most first, each with its weeks. */
export function byCrop(weeks: CropWeeks): readonly CropLine[] {
  const found = new Map<string | null, CropLine>()
  for (const { crop, name, week, kg, picks } of weeks) {
    const before = found.get(crop) ?? { crop, name: name ?? UNTOLD, kg: 0, picks: 0, weeks: [] }
    found.set(crop, {
      ...before,
      kg: before.kg + kg,
      picks: before.picks + picks,
      weeks: [...before.weeks, { week, kg, picks }],
    })
  }
  return [...found.values()].sort((a, b) => b.kg - a.kg)
}
