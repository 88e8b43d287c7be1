import { describe, expect, it } from 'vitest'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { reckonYield } from '../../geo/yield/reckonYield.ts'
import { reckonSeasons } from '../../geo/yield/seasons/reckonSeasons.ts'
import { rectangle } from '../unit/yield/shapes.ts'
import { type Brief, load } from './farmOf.ts'
import { SERVER_ABSENT, withPlane } from './harness.ts'

const ORIGIN: LonLat = [15.3, 46.8]
const plane = planeAbout(ORIGIN)

function area(flat: readonly number[]) {
  const corners = [0, 1, 2, 3, 0].map((k) => [...plane.toLonLat([flat[2 * k]!, flat[2 * k + 1]!])])
  return { type: 'Polygon' as const, coordinates: [corners] }
}

const BEDS = ['b0', 'b1', 'b2', 'b3']

/**
 * Four beds of 20 m × 1 m, 2 m from bed to bed. 2024 and 2025: tomato in the first two, leek in the third, until late
 * October; tomato and leek together in the fourth.
 */
function plantings(year: number, cleared: Readonly<Record<string, string>>) {
  const stood = [
    ['b0', 'tom'],
    ['b1', 'tom'],
    ['b2', 'lee'],
    ['b3', 'tom'],
    ['b3', 'lee'],
  ]
  return stood.map(([bed, variety]) => ({
    id: `${year} ${bed} ${variety}`,
    bed,
    variety,
    set_out: `${year}-05-01`,
    cleared: cleared[variety!] === undefined ? null : `${year}-${cleared[variety!]}`,
  }))
}

const CLEARED = { tom: '10-20', lee: '10-25' }
const picks: (Record<string, unknown> & { id: string })[] = []
const pick = (on: string, kg: number, where: object) =>
  picks.push({ id: `k${picks.length}`, on, quantity: kg, unit: 'kg', kg_per_unit: 1, ...where })
const spot = (x: number, y: number) => {
  const [lon, lat] = plane.toLonLat([x, y])
  return { lon, lat }
}

for (const [year, early, late] of [
  [2024, 30, 60],
  [2025, 50, 90],
] as const) {
  pick(`${year}-07-15`, early, { planting: `${year} b0 tom` })
  pick(`${year}-08-15`, late, { planting: `${year} b1 tom` })
}
// 2026: 21 kg of tomato told by planting, 12 by bed and 4 by spot; 6 of leek by bed; 5 in the bed that holds both.
pick('2026-07-10', 21, { planting: '2026 b0 tom' })
pick('2026-07-12', 12, { bed: 'b1' })
pick('2026-07-20', 4, spot(10, 0.5))
pick('2026-07-22', 6, { bed: 'b2' })
pick('2026-07-25', 5, { bed: 'b3' })
pick('2026-09-25', 40, { bed: 'b0' })

const farm: Brief = {
  farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 1 }],
  crops: [
    { id: 'tomato', name: 'Tomato', family: 'Solanaceae' },
    { id: 'leek', name: 'Leek', family: 'Amaryllidaceae', yield_low_kg_per_m2: 2, yield_high_kg_per_m2: 3 },
  ],
  varieties: [
    { id: 'tom', crop: 'tomato', name: 'Round' },
    { id: 'lee', crop: 'leek', name: 'Long' },
  ],
  fields: [{ id: 'f', name: 'Field', geom: area(rectangle(-5, -3, 40, 20)) }],
  beds: BEDS.map((id, k) => ({ id, field: 'f', name: id, geom: area(rectangle(0, 2 * k, 20, 1)) })),
  plantings: [...plantings(2024, CLEARED), ...plantings(2025, CLEARED), ...plantings(2026, { tom: '10-20' })],
  picks,
}

describe.skipIf(SERVER_ABSENT)('what the season is to give, with picks told by planting, bed and spot', () => {
  const outlookOn = (on: string, of: { crop: string } | null = null) =>
    withPlane(ORIGIN, async (db) => {
      await load(db, farm)
      const asked = { season: 2026, seasons: [], of }
      const { outlook } = await reckonSeasons(db, { ...asked, on })
      const { report } = await reckonYield(db, asked)
      return { outlook, totalKg: report.totalKg }
    })

  it('counts each to its crop and adds what earlier seasons gave after the day, worked by hand', async () => {
    const { outlook } = await outlookOn('2026-07-31')
    // Tomato has 20 + 20 m² and half of the fourth bed's 20 m². 30 of 90 kg and 50 of 140 kg had been picked by then,
    // so 60 and 90 kg were to come, 75 in the middle; t(1) 12.7062047, s 21.2132034, √(1 + 1/2): ±330.117.
    const tomato = outlook.crops.find(({ crop }) => crop === 'tomato')!
    expect(tomato).toMatchObject({ rests: 'own seasons', seasons: [2024, 2025], lowKg: expect.closeTo(37, 6) })
    expect(tomato.areaM2).toBeCloseTo(50, 3)
    expect(tomato.pickedKg).toBeCloseTo(37, 9)
    expect(tomato.usualShareByNow).toBeCloseTo((30 / 90 + 50 / 140) / 2, 9)
    expect(tomato.expectedKg).toBeCloseTo(37 + 75, 6)
    expect(tomato.highKg).toBeCloseTo(37 + 75 + 330.117, 3)
    // Leek was never picked by planting before: 2–3 kg/m² as usual on 30 m².
    const leek = outlook.crops.find(({ crop }) => crop === 'leek')!
    expect(leek).toMatchObject({ rests: 'usual yield', pickedKg: 6 })
    expect(leek.expectedKg).toBeCloseTo(75, 3)
    expect(outlook.ofNoCropKg).toBeCloseTo(5, 9)
    expect(outlook.pickedKg).toBeCloseTo(48, 9)
    expect(outlook.expectedKg).toBeCloseTo(112 + 75 + 5, 3)
  })

  it('at the season’s end has picked what the season’s yield is, and expects no more of what is cleared', async () => {
    const { outlook, totalKg } = await outlookOn('2026-12-31')
    expect(totalKg).toBeCloseTo(88, 9)
    expect(outlook.pickedKg).toBeCloseTo(totalKg, 9)
    const tomato = outlook.crops.find(({ crop }) => crop === 'tomato')!
    expect(tomato).toMatchObject({ rests: 'all cleared', lowKg: null, highKg: null, standingM2: 0 })
    expect(tomato.expectedKg).toBeCloseTo(77, 9)
    // The leek still stands, and its usual yield tells no day.
    expect(outlook.crops.find(({ crop }) => crop === 'leek')).toMatchObject({ rests: 'usual yield' })
  })

  it('of one crop leaves out what belongs to none, as its yield does', async () => {
    const { outlook, totalKg } = await outlookOn('2026-12-31', { crop: 'tomato' })
    expect(outlook.crops.map(({ crop }) => crop)).toEqual(['tomato'])
    expect(outlook.ofNoCropKg).toBe(0)
    expect(outlook.pickedKg).toBeCloseTo(77, 9)
    expect(totalKg).toBeCloseTo(77, 9)
  })
})
