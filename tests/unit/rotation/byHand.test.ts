import { describe, expect, it } from 'vitest'
import type { Ground } from '../../../geo/growing/ground.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import { cropGroups } from '../../../geo/rotation/cropGroups.ts'
import { layRotation } from '../../../geo/rotation/layRotation.ts'
import { leftOut } from '../../../geo/rotation/leftOut.ts'
import { readRotationFile } from '../../../geo/rotation/rotationFile.ts'
import { randomGround } from '../growing/randomGround.ts'

// Worked by hand: two beds of 20 m, three of 15 m, each with a row as long as it; that of the bed e is drawn westward.
const { ground: any } = randomGround(1)
const LENGTHS = { a: 20, b: 20, c: 15, d: 15, e: 15 }
const beds = Object.entries(LENGTHS).map(([id, lengthM], n) => ({
  id,
  lengthM,
  line: [
    [0, -2 * n],
    [lengthM, -2 * n],
  ] as [[number, number], [number, number]],
}))
const planting = (id: string, bed: string, more: Partial<Planting> = {}): Planting => ({
  ...{ id, row: `${bed} north`, bed: null, variety: 'v tomato', from_m: null, to_m: null, plants: 41, spacing_m: 0.5 },
  ...{ set_out: '2025-05-10', cleared: '2025-10-01', purpose: null, note: null, extra: {} },
  ...more,
})
const ground = (...plantings: Planting[]): Ground => ({
  ...any,
  seasonStartMonth: 1,
  beds: new Map(beds.map(({ id, line }) => [id, { id, field: 'f', name: id.toUpperCase(), middle: line }])),
  rows: new Map(
    beds.map(({ id, line }) => [
      `${id} north`,
      { id: `${id} north`, bed: id, name: null, side: 'north', line: id === 'e' ? line.toReversed() : line },
    ]),
  ),
  plantings,
})
const all = new Set(Object.keys(LENGTHS))

describe('groups of beds', () => {
  it('are beds that hold the same families, by their metres, those that climb apart', () => {
    const groups = cropGroups(
      ground(
        planting('1', 'a'),
        planting('2', 'b'),
        planting('3', 'c', { variety: 'v potato' }),
        planting('4', 'd', { to_m: 5 }),
        planting('5', 'd', { from_m: 5, variety: 'v pea' }),
        planting('not this season', 'e', { set_out: '2024-05-01', cleared: '2024-10-01' }),
      ),
      2025,
      all,
    )
    expect(groups.map(({ name, beds: of, needM }) => [name, of, needM])).toEqual([
      ['Solanaceae, climbing', ['a', 'b'], 40],
      ['Solanaceae', ['c'], 15],
      ['Fabaceae + Solanaceae', ['d'], 15],
    ])
  })

  it('leave out what stands on, stock, and what a person takes out', () => {
    const autumn = { set_out: '2025-10-14', cleared: '2026-07-06' }
    const found = leftOut(
      ground(planting('garlic', 'a', autumn), planting('only planned', 'b', { set_out: '2026-05-01' })),
      {
        asked: ['d'],
        lots: new Map([['c', [{ kind: 'Hazel', standing: 30 }]]]),
        from: 2026,
        on: '2025-12-31',
      },
    )
    expect([...found]).toEqual([
      ['a', { until: 2027, why: 'tomato stands there' }],
      ['c', { until: null, why: 'stock stands there: 30 Hazel' }],
      ['d', { until: null, why: 'as asked for' }],
    ])
  })
})

describe('laying a rotation out', () => {
  const groups = [{ name: 'G', from_beds: ['a', 'b'] }]
  const into = (...to: string[]) => ({
    season: 2025,
    groups,
    beds: to.map((bed) => ({ bed, years: { '2027': 'G' } })),
  })
  const farm = ground(planting('1', 'a'), planting('2', 'b'))
  const told = (laid: ReturnType<typeof layRotation>) =>
    laid.map(({ of, bed, planting: one, why }) => [of, bed, one && [one.from_m, one.to_m, one.plants], why])

  it('fills shorter beds one after another, plants and all, a row drawn the other way too', () => {
    const laid = layRotation(farm, into('c', 'd', 'e'), [2027])
    expect(told(laid)).toEqual([
      // 15 m at 0.5 m are 31 plants, 5 m 11, 10 m 21.
      ['1', 'c', [null, null, 31], null],
      ['1', 'd', [0, 5, 11], null],
      ['2', 'd', [5, 15, 21], null],
      // The first 10 m of a bed whose row begins at its other end.
      ['2', 'e', [5, 15, 21], null],
    ])
    expect(laid[0]!.planting).toMatchObject({ row: 'c north', set_out: '2027-05-10', cleared: '2027-10-01' })
    expect(layRotation(farm, into('c', 'd', 'e'), [2026])).toEqual([
      expect.objectContaining({ of: '1', planting: null, why: '20.0 m find no bed' }),
      expect.objectContaining({ of: '2', planting: null, why: '20.0 m find no bed' }),
    ])
  })

  it('says what finds no bed, and keeps as they are what comes into a bed of the same length', () => {
    expect(told(layRotation(farm, into('c', 'd'), [2027])).at(-1)).toEqual(['2', 'b', null, '10.0 m find no bed'])
    expect(told(layRotation(farm, into('b', 'a'), [2027]))).toEqual([
      ['1', 'b', [null, null, 41], null],
      ['2', 'a', [null, null, 41], null],
    ])
  })
})

it('tells what is wrong with what is asked, by field', () => {
  expect(readRotationFile({ season: 2026, years: 40, leave: [''], returns: {} })).toEqual({
    faults: [
      expect.objectContaining({ field: 'years' }),
      expect.objectContaining({ field: 'leave.0' }),
      expect.objectContaining({ field: '' }),
    ],
  })
  expect(readRotationFile({ season: 2026, return_years: { nightshades: 5 } })).toMatchObject({
    asked: { years: 4, return_years: { Solanaceae: 5 } },
  })
})
