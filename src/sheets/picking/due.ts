import type { Rhythm } from '../../desk/door.ts'

/** How a planting stands against its rhythm, in words, and how sure: `overDays` is null where there is too little to tell. */
export interface Due {
  readonly overDays: number | null
  readonly words: string
}

const days = (count: number) => `${Number(count.toFixed(1))} ${count === 1 ? 'day' : 'days'}`

export function dueOf({ sinceDays, everyDays, pickDays }: Rhythm): Due {
  if (sinceDays === null || pickDays === 0) return { overDays: null, words: 'not picked yet' }
  if (everyDays === null) return { overDays: null, words: 'too little to tell' }
  const overDays = sinceDays - everyDays
  if (overDays > 0) return { overDays, words: `${days(overDays)} over` }
  return { overDays, words: overDays === 0 ? 'due today' : `in ${days(-overDays)}` }
}
