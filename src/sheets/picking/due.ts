import type { Rhythm } from '../../desk/door.ts'

const days = (count: number) => `${Number(count.toFixed(1))} ${count === 1 ? 'day' : 'days'}`

/** How a planting stands against its time, in words. */
export function dueWords({ last, overDays }: Rhythm): string {
  if (overDays === null) return last === null ? 'not picked yet' : 'too little to tell'
  if (overDays > 0) return `${days(overDays)} over`
  return overDays === 0 ? 'due today' : `in ${days(-overDays)}`
}

/** By what a planting is told, where it is not by its own rhythm; else nothing. */
export function byWords({ by }: Rhythm): string {
  if (by === 'variety' || by === 'crop') return `by plantings of the ${by}`
  return by === 'first pick' ? 'its first pick, by the crop’s usual days' : ''
}
