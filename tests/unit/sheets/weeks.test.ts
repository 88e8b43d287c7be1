import { expect, it } from 'vitest'
import type { Desk, PickWeek } from '../../../src/desk/door.ts'
import { useDesk } from '../../../src/sheets/state/door.ts'
import { leaveFarm } from '../../../src/sheets/state/leaving.ts'
import { askWeeks, freshWeeks, weeks, weeksAreStale } from '../../../src/sheets/state/weeks.ts'

it('weeks of picks are asked for once, and stand as they were until a step’s are told', async () => {
  const waiting: ((told: PickWeek[]) => void)[] = []
  const desk = {
    ask: () => new Promise((settle) => waiting.push((value) => settle({ ok: true, value }))),
  } as unknown as Desk
  useDesk(desk)
  const week = (kg: number) => [{ from: '2025-07-01', kg, picks: 1 }]

  const first = [askWeeks(2025), askWeeks(2025)]
  expect(waiting).toHaveLength(1)
  waiting.shift()!(week(1))
  expect(await Promise.all(first)).toEqual([week(1), week(1)])
  expect(await askWeeks(2025)).toEqual(week(1))
  expect(waiting).toHaveLength(0)

  weeksAreStale()
  expect(weeks.value.get(2025)).toEqual(week(1))
  const second = askWeeks(2025)
  // Another step while they are on their way: what comes is old already.
  weeksAreStale()
  const third = askWeeks(2025)
  waiting.shift()!(week(2))
  await second
  expect([weeks.value.get(2025), freshWeeks.value.has(2025)]).toEqual([week(1), false])
  waiting.shift()!(week(3))
  await third
  expect([weeks.value.get(2025), freshWeeks.value.has(2025)]).toEqual([week(3), true])

  leaveFarm()
  expect(weeks.value.size).toBe(0)
})
