import { describe, expect, it } from 'vitest'
import { readCard } from '../../geo/cards/readCard.ts'
import { seasonBook } from '../../geo/cards/seasonBook.ts'
import { seasonsWithRecords } from '../../geo/cards/seasons.ts'
import { pickedByBed } from '../../geo/picking/pickedByBed.ts'
import { seasonSpan } from '../../geo/yield/season.ts'
import { load } from './farmOf.ts'
import { SERVER_ABSENT, useDatabase } from './harness.ts'

const box = (x: number, y: number, w: number, h: number) => ({
  type: 'Polygon' as const,
  coordinates: [
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
      [x, y],
    ],
  ],
})
const planting = (id: string, cleared: string | null) => ({
  ...{ id, row: 'r', variety: 'red', from_m: id === 'p' ? 0 : 20, to_m: id === 'p' ? 20 : 40 },
  ...{ set_out: '2025-05-01', cleared },
})
const kg = (id: string, on: string, quantity: number, place: object) => ({
  ...{ id, on, quantity, unit: 'kg', kg_per_unit: 1 },
  ...place,
})
// Bed b2 was made after b and lies over its eastern half: a spot there is b's.
const spot = { west: { lon: 15.0004, lat: 46.00021 }, both: { lon: 15.0009, lat: 46.00021 } }
const FARM = {
  farm: [{ id: 'farm', name: 'Test', units: 'metric', season_start_month: 7 }],
  crops: [{ id: 'tomato', name: 'Tomato', family: 'Solanaceae' }],
  varieties: [{ id: 'red', crop: 'tomato', name: 'Red' }],
  fields: [{ id: 'f', name: 'Field', geom: box(15, 46, 0.004, 0.002) }],
  beds: [
    { id: 'b', field: 'f', name: 'B1', geom: box(15.0002, 46.0002, 0.001, 0.00002) },
    { id: 'b2', field: 'f', name: 'B2', geom: box(15.0007, 46.0002, 0.001, 0.00002) },
  ],
  rows: [
    {
      id: 'r',
      bed: 'b',
      side: 'middle',
      geom: {
        type: 'LineString',
        coordinates: [
          [15.0002, 46.00021],
          [15.0012, 46.00021],
        ],
      },
    },
  ],
  plantings: [planting('p', null), planting('q', '2025-06-20')],
  picks: [
    kg('k1', '2025-06-30', 2, { planting: 'p' }),
    kg('k2', '2025-07-01', 3, { planting: 'p' }),
    // Of what was cleared in the season before.
    kg('k3', '2025-07-02', 1, { planting: 'q' }),
    kg('k4', '2026-01-15', 4, { bed: 'b' }),
    kg('k5', '2026-06-30', 5, spot.both),
    { id: 'k6', on: '2026-02-01', quantity: 1, unit: 'hatful', ...spot.west },
    kg('k7', '2026-07-01', 6, spot.west),
    kg('k8', '2025-08-01', 7, { lon: 15.003, lat: 46.001 }),
    kg('k9', '2025-08-02', 8, { lon: 15.0015, lat: 46.00021 }),
    kg('k10', '2025-09-01', 9, { bed: 'b2' }),
    kg('k11', '2026-07-02', 10, spot.west),
  ],
}
// By hand, of a season from July to June, up to 1 July 2026.
const GAVE = {
  b: [
    ['2026', 6, 1],
    ['2025', 3 + 1 + 4 + 5, 5],
    ['2024', 2, 1],
  ],
  b2: [['2025', 8 + 9, 2]],
}
const ON = '2026-07-01'

describe.skipIf(SERVER_ABSENT)('what a bed gave', () => {
  const held = useDatabase([15, 46])

  it('is the same on its card, among the season’s picking and in its book: plantings, the bed and spots in it', async () => {
    const { db } = held
    await load(db, FARM as never)
    expect(await seasonsWithRecords(db)).toEqual([2024, 2025, 2026])
    for (const [bed, gave] of Object.entries(GAVE)) {
      const card = await readCard(db, 'beds', bed, ON)
      expect(card!.tables.find(({ title }) => title === 'What it gave')).toMatchObject({
        columns: ['season', 'kg', 'picks'],
        rows: gave,
      })
      for (const season of [2023, 2024, 2025, 2026]) {
        const span = seasonSpan(season, 7)
        const days = { from: span.from, to: span.to < ON ? span.to : ON }
        const [, wantedKg, wantedPicks] = gave.find(([of]) => of === String(season)) ?? [season, 0, 0]
        const wanted = { kg: wantedKg, picks: wantedPicks }
        const picked = (await pickedByBed(db, days)).find((one) => one.bed === bed)
        expect({ kg: picked?.kg ?? 0, picks: picked?.picks ?? 0 }).toEqual(wanted)
        const { plantings, others } = (await seasonBook(db, days)).find(({ id }) => id === bed)!
        const all = [...plantings, others]
        const sum = (of: 'kg' | 'picks') => all.reduce((total, one) => total + one[of], 0)
        expect({ kg: sum('kg'), picks: sum('picks') }).toEqual(wanted)
      }
    }
  })
})
