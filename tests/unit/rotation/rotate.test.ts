import loadHighs from 'highs'
import { expect, it } from 'vitest'
import { rotate } from '../../../geo/rotation/rotate.ts'
import type { RotationReading } from '../../../geo/rotation/rotationReading.ts'

const GROUPS = ['Solanaceae', 'Fabaceae', 'Brassicaceae']

/** Beds of 10 m; each group fills one of the first three in 2026, and returns after three years. By bed and year: what speaks against anything there. */
function reading(beds: number, years: number, against: (bed: number, year: number) => number): RotationReading {
  const each = Array.from({ length: beds }, (_, n) => n)
  return {
    asked: { season: 2026, years, return_years: {}, leave: [], weights: {} },
    groups: GROUPS.map((name, n) => ({
      ...{ name, families: [name], crops: [], climbs: false, sensitive: false },
      ...{ beds: [`b${n}`], needM: 10 },
    })),
    returns: GROUPS.map((family) => ({ family, years: 3, source: 'asked for' })),
    beds: each.map((n) => ({ id: `b${n}`, name: `b${n}`, field: 'f', lengthM: 10, left: null, supported: false })),
    planned: [],
    problem: {
      years,
      families: GROUPS.map((name) => ({ name, needM: 10, returnYears: 3 })),
      waits: GROUPS.map((_, f) => GROUPS.map((_, g) => (f === g ? 3 : 0))),
      ...{ insteadPerM: 0, usePerM: 0, budget: null },
      beds: each.map((n) => ({
        ...{ id: `b${n}`, lengthM: 10, rows: 1, fixed: false, sites: [] },
        freeFrom: GROUPS.map((_, f) => (f === n ? 2 : 0)),
        burden: GROUPS.map(() => Array.from({ length: years }, (_, t) => 0.5 + against(n, t))),
      })),
    },
  }
}
const solve = async (of: RotationReading) =>
  rotate(await loadHighs(), of, { gap: 0, seconds: 10, clock: () => performance.now() })

it('goes round: three groups in three beds, each bed bearing each once, then what it bore in 2026 again', async () => {
  const answer = await solve(reading(3, 3, () => 0))
  expect(answer.status).toBe('optimal')
  for (const [n, { years }] of answer.beds.entries()) {
    expect(new Set(Object.values(years))).toEqual(new Set(GROUPS))
    expect(years['2029']).toBe(GROUPS[n])
  }
})

it('lets the bed rest against which something speaks, and the other where it speaks for less', async () => {
  const resting = async (against: (bed: number) => number) => {
    const { beds } = await solve(reading(4, 1, against))
    return beds.filter(({ years }) => Object.keys(years).length === 0).map(({ bed }) => bed)
  }
  expect(await resting((bed) => (bed === 1 ? 5 : 0))).toEqual(['b1'])
  expect(await resting((bed) => (bed === 1 ? 5 : bed === 2 ? 6 : 0))).toEqual(['b2'])
})

it('says what finds no bed, and which family is the cause, where beds are too few', async () => {
  const { status, short, crowded } = await solve(reading(2, 3, () => 0))
  expect(status).toBe('short')
  // Two beds bear two groups a year of the three that there are.
  for (const year of [2027, 2028, 2029])
    expect(short.filter((one) => one.year === year).reduce((sum, { metres }) => sum + metres, 0)).toBeCloseTo(10)
  // Each fills a half, and would have room for a third.
  expect(crowded).toEqual(GROUPS.map((family) => ({ family, fills: 0.5, room: 1 / 3 })))
})
