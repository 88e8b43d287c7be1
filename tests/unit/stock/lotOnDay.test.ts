import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { liftedTooMany } from '../../../geo/stock/diedInGround.ts'
import { liftingList } from '../../../geo/stock/liftingList.ts'
import { lotOnDay, reservedFor } from '../../../geo/stock/lotOnDay.ts'
import { DAYS, liveThrough, type Move } from './oracle.ts'

const RUNS = { seed: 20261125, numRuns: 600 }

const move = (on: string, kind: Move['move'], count: number, to: string | null = null): Move => ({
  on,
  move: kind,
  count,
  to,
})

const anyMove = fc.record({
  on: fc.constantFrom(...DAYS),
  move: fc.constantFrom('reserved', 'sold', 'lifted', 'lost') as fc.Arbitrary<Move['move']>,
  count: fc.integer({ min: 1, max: 6 }),
  to: fc.constantFrom(null, 'Ana', 'Jože'),
})

/** What the database and the archive ask of a lot's moves together. */
function isSound(raised: number, moves: readonly Move[]): boolean {
  const sum = (...of: string[]) => moves.reduce((all, one) => (of.includes(one.move) ? all + one.count : all), 0)
  return sum('sold', 'lost') <= raised && sum('lifted') <= raised && liftedTooMany(raised, moves) === null
}

describe('a lot on a day', () => {
  // X: reckoned by hand from the moves.
  const moves = [
    move('2026-03-01', 'sold', 12),
    move('2026-03-02', 'lost', 3),
    move('2026-03-05', 'lifted', 5),
    move('2026-03-06', 'reserved', 20, 'Ana'),
    move('2026-11-01', 'sold', 15, 'Ana'),
    move('2026-11-02', 'sold', 10),
  ]

  it('counts plants that are sold, lifted, lost, promised, left and standing', () => {
    expect(lotOnDay(100, moves, '2026-03-06')).toEqual({
      raised: 100,
      reserved: 20,
      sold: 12,
      lifted: 5,
      lost: 3,
      left: 85,
      free: 65,
      standing: 92,
      toLift: 27,
    })
    expect(lotOnDay(100, moves, '2026-11-02')).toMatchObject({ reserved: 5, sold: 37, left: 60, free: 55, toLift: 37 })
    expect(lotOnDay(100, [], '2026-11-02')).toMatchObject({ left: 100, standing: 100, toLift: 0 })
  })

  it('uses a promise up by a sale to the same person only', () => {
    const promised = reservedFor([
      move('2026-03-01', 'reserved', 4, 'Ana'),
      move('2026-03-01', 'reserved', 6),
      move('2026-03-02', 'sold', 9),
      move('2026-03-03', 'sold', 1, 'Ana'),
    ])
    expect(Object.fromEntries(promised)).toEqual({ Ana: 3 })
  })

  it('lifts what was sold first or sold to the same, and lets plants be lifted and then sold', () => {
    expect(
      lotOnDay(10, [move('2026-03-01', 'lifted', 10), move('2026-03-02', 'sold', 10)], '2026-03-02'),
    ).toMatchObject({ left: 0, standing: 0, toLift: 0 })
    expect(liftedTooMany(10, [move('2026-03-01', 'lost', 4), move('2026-03-02', 'lifted', 7)])).toEqual({
      on: '2026-03-02',
      more: 1,
      died: 4,
    })
    expect(liftedTooMany(10, [move('2026-03-01', 'lifted', 4), move('2026-03-02', 'lost', 4)])).toBeNull()
  })

  it('agrees on every day with plants lived through one by one, and is below zero on none (seeded)', () => {
    let sound = 0
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.array(anyMove, { maxLength: 9 }), (raised, told) => {
        const lived = liveThrough(raised, told)
        expect(isSound(raised, told)).toBe(lived !== null)
        for (const { on, left, standing } of lived ?? []) {
          expect({ on, left, standing }).toEqual({
            on,
            left: lotOnDay(raised, told, on).left,
            standing: lotOnDay(raised, told, on).standing,
          })
          expect(Math.min(left, standing)).toBeGreaterThanOrEqual(0)
          if (left > 0) sound++
        }
      }),
      RUNS,
    )
    expect(sound).toBeGreaterThan(500)
  })

  it('is sound in every order of entries where it is sound as a whole (seeded)', () => {
    const shuffled = fc
      .array(anyMove, { maxLength: 7 })
      .chain((told) => fc.tuple(fc.constant(told), fc.shuffledSubarray(told, { minLength: told.length })))
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), shuffled, (raised, [told, order]) => {
        fc.pre(isSound(raised, told))
        order.forEach((_, i) => {
          expect(isSound(raised, order.slice(0, i + 1))).toBe(true)
        })
      }),
      { ...RUNS, numRuns: 250 },
    )
  })
})

describe('the lifting list', () => {
  const lot = { id: 'l', kind: 'hazel', bed: 'b', row: null, year: 2025, count: 30, grade: null, price: 5, extra: {} }
  const full = (some: readonly (Move & { due?: string })[]): StockMove[] =>
    some.map((one, i) => ({ id: String(i), lot: 'l', note: null, extra: {}, due: null, ...one }))
  const listed = (some: readonly (Move & { due?: string })[], on = '2026-12-01', lots: readonly StockLot[] = [lot]) =>
    liftingList(lots, full(some), on).map(({ is, to, count, due, short }) => [is, to, count, due, short])

  it('tells what is owed, what is wanted first at the head, each promise once', () => {
    expect(
      listed([
        move('2026-10-01', 'reserved', 6, 'Ana'),
        { ...move('2026-10-02', 'sold', 5, 'Jože'), due: '2026-11-20' },
        { ...move('2026-10-03', 'sold', 4, 'Ana'), due: '2026-11-10' },
      ]),
    ).toEqual([
      ['sold', 'Ana', 4, '2026-11-10', 0],
      ['sold', 'Jože', 5, '2026-11-20', 0],
      ['reserved', 'Ana', 2, null, 0],
    ])
  })

  it('takes off what was lifted: for the same person first, the rest from what is owed first', () => {
    const owed = [move('2026-10-01', 'sold', 6, 'Ana'), move('2026-10-02', 'sold', 5, 'Jože')]
    expect(listed([...owed, move('2026-10-03', 'lifted', 5, 'Jože')])).toEqual([['sold', 'Ana', 6, null, 0]])
    expect(listed([...owed, move('2026-10-03', 'lifted', 8)])).toEqual([['sold', 'Jože', 3, null, 0]])
    expect(listed([...owed, move('2026-10-03', 'lifted', 8, 'Jože')])).toEqual([['sold', 'Ana', 3, null, 0]])
    expect(listed(owed, '2026-10-01')).toEqual([['sold', 'Ana', 6, null, 0]])
  })

  it('says what no longer stands', () => {
    expect(listed([move('2026-10-01', 'reserved', 25, 'Ana'), move('2026-11-01', 'lost', 8)])).toEqual([
      ['reserved', 'Ana', 25, null, 3],
    ])
  })

  it('comes to the plants that wait to be lifted, but for those that are short (seeded)', () => {
    fc.assert(
      fc.property(fc.array(anyMove, { maxLength: 9 }), (told) => {
        fc.pre(isSound(lot.count, told))
        const on = DAYS.at(-1)!
        const there = liftingList([lot], full(told), on).reduce((sum, { count, short }) => sum + count - short, 0)
        expect(there).toBe(lotOnDay(lot.count, told, on).toLift)
      }),
      { ...RUNS, numRuns: 300 },
    )
  })
})
