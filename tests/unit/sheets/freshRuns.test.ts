import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import type { Desk } from '../../../src/desk/door.ts'
import { useDesk } from '../../../src/sheets/state/door.ts'
import { runsAreStale, runsAreWanted } from '../../../src/sheets/state/freshRuns.ts'
import { sheet } from '../../../src/sheets/state/where.ts'

let asked = 0
beforeEach(() => {
  vi.useFakeTimers()
  asked = 0
  useDesk({
    ask: async () => {
      asked++
      return { ok: true, value: [] }
    },
  } as unknown as Desk)
})
afterEach(() => {
  vi.useRealTimers()
})

it('runs are asked for at once where they are in sight', async () => {
  sheet.value = 'supports'
  await runsAreStale()
  expect(asked).toBe(1)
  await runsAreWanted()
  expect(asked).toBe(1)
})

it('runs that no sheet shows are asked for when steps have ceased, or when a sheet wants them', async () => {
  sheet.value = 'ground'
  await runsAreStale()
  vi.advanceTimersByTime(4000)
  await runsAreStale()
  vi.advanceTimersByTime(4000)
  expect(asked).toBe(0)
  vi.advanceTimersByTime(2000)
  expect(asked).toBe(1)
  await runsAreStale()
  await runsAreWanted()
  expect(asked).toBe(2)
  vi.advanceTimersByTime(10_000)
  expect(asked).toBe(2)
})
