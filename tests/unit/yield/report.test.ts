import { describe, expect, it } from 'vitest'
import { yieldJson } from '../../../geo/yield/yieldJson.ts'
import { yieldReport } from '../../../geo/yield/yieldReport.ts'
import { bedWithRows, planting, SETTINGS, season } from './farms.ts'
import { rectangle } from './shapes.ts'

type Parts = Parameters<typeof season>[0]

/** Beds 20 m × 1.2 m one above the other, 1.8 m apart from middle to middle, each with two rows. */
const laidOut = Array.from({ length: 8 }, (_, k) => bedWithRows(`b${k}`, rectangle(0, 1.8 * k, 20, 1.2), 2))
const beds = laidOut.map(({ bed }) => bed)
const rows = laidOut.flatMap((bed) => bed.rows)

const reported = (parts: Parts) => yieldReport(season({ beds, rows, ...parts }), SETTINGS)

describe('index', () => {
  it('holds each planting against its own crop’s mean, worked by hand', () => {
    // Tomato: 20 m of row as the only one of its bed, so 1.2 m wide, and 10 m of one of two, so 0.6 m: 24 and 6 m²;
    // 60 kg over 30 m² is 2 kg/m². Pepper: 12 m² twice, 6 kg and 18 kg, mean 1 kg/m².
    const report = reported({
      plantings: [
        planting('t0', 'b0', 'tomato', { row: 'b0-0' }),
        planting('t1', 'b1', 'tomato', { row: 'b1-0', fromM: 0, toM: 10 }),
        planting('p1', 'b1', 'pepper', { row: 'b1-1' }),
        planting('p2', 'b2', 'pepper', { row: 'b2-0' }),
        planting('k2', 'b2', 'kale', { row: 'b2-1' }),
      ],
      picks: {
        plantings: [
          { planting: 't0', kg: 54 },
          { planting: 't1', kg: 6 },
          { planting: 'p1', kg: 6 },
          { planting: 'p2', kg: 18 },
        ],
        beds: [],
        spots: [],
      },
    })
    const [b0, b1, b2, b3] = report.beds
    expect(report.crops.map(({ crop, kgPerM2, plantings }) => [crop, kgPerM2, plantings])).toEqual([
      ['tomato', expect.closeTo(2, 12), 2],
      ['pepper', expect.closeTo(1, 12), 2],
    ])
    expect(b0!.index).toBeCloseTo(54 / 48, 12)
    expect(b1!.index).toBeCloseTo(12 / (12 + 12), 12)
    expect(b2!.index).toBeCloseTo(18 / 12, 12)
    expect(b3).toMatchObject({ kg: 0, kgPerM2: 0, kgPerRowM: null, index: null })
    expect([b0!.kgPerRowM, b1!.kgPerRowM, b2!.kgPerRowM]).toEqual([54 / 20, 12 / 30, 18 / 40])
    expect(report.totalKg).toBe(84)
    expect(report.kgPerM2).toBeCloseTo(84 / 72, 12)
    expect(report.areaM2).toBeCloseTo(8 * 24, 10)
    expect(report.hotAndCold.tooLittle).toMatch(/^There are \d+ stretches of bed to compare; it takes 30/)
    expect(report.beds.every((bed) => bed.standing === null)).toBe(true)
  })

  it('counts picks told by bed to the bed’s one crop, and leaves them out where there are two or none', () => {
    const report = reported({
      plantings: [
        planting('t0', 'b0', 'tomato'),
        planting('t1', 'b1', 'tomato'),
        planting('k2', 'b2', 'kale', { row: 'b2-0' }),
        planting('t2', 'b2', 'tomato', { row: 'b2-1' }),
      ],
      picks: {
        plantings: [{ planting: 't1', kg: 10 }],
        beds: [
          { bed: 'b0', kg: 50 },
          { bed: 'b2', kg: 7 },
          { bed: 'b3', kg: 3 },
        ],
        spots: [],
      },
    })
    // Tomato: 60 kg on 24 + 24 + 12 m².
    expect(report.crops).toEqual([
      { crop: 'tomato', kg: 60, areaM2: expect.closeTo(60, 9), plantings: 3, kgPerM2: expect.closeTo(1, 12) },
    ])
    expect(report.beds.slice(0, 4).map((bed) => bed.index)).toEqual([
      expect.closeTo(50 / 24, 9),
      expect.closeTo(10 / 24, 9),
      expect.closeTo(0, 12),
      null,
    ])
    expect(report.beds.slice(0, 4).map((bed) => bed.kg)).toEqual([50, 10, 7, 3])
    expect(report.notes.find((note) => note.kind === 'picks-of-unknown-crop')!.ids).toEqual(['b2', 'b3'])
  })

  it('shares the ground of plantings told only by bed that stand there together, not one after the other', () => {
    const report = reported({
      plantings: [
        planting('t0', 'b0', 'tomato'),
        planting('t1', 'b0', 'tomato'),
        planting('l1', 'b1', 'lettuce', { setOut: '2025-03-01', cleared: '2025-05-10' }),
        planting('l2', 'b1', 'lettuce', { setOut: '2025-06-01', cleared: '2025-08-10' }),
      ],
      picks: {
        plantings: [
          { planting: 't0', kg: 3 },
          { planting: 'l1', kg: 3 },
        ],
        beds: [],
        spots: [],
      },
    })
    expect(report.crops.map(({ areaM2 }) => areaM2)).toEqual([expect.closeTo(24, 9), expect.closeTo(48, 9)])
    expect(report.beds[1]!.rowM).toBeCloseTo(20, 9)
  })

  it('takes in plantings that stood on some day of the season, and those picked in it, but no others', () => {
    const report = reported({
      plantings: [
        planting('last year', 'b0', 'tomato', { setOut: '2024-05-01', cleared: '2024-12-31' }),
        planting('wintered', 'b1', 'tomato', { setOut: '2024-09-01', cleared: '2025-01-02' }),
        planting('gone', 'b5', 'tomato', { setOut: '2024-09-01', cleared: '2025-01-01' }),
        planting('still there', 'b2', 'tomato', { setOut: '2025-12-31', cleared: null }),
        planting('next year', 'b3', 'tomato', { setOut: '2026-01-01', cleared: null }),
        planting('picked late', 'b4', 'tomato', { setOut: '2024-05-01', cleared: '2024-12-31' }),
      ],
      picks: { plantings: [{ planting: 'picked late', kg: 72 }], beds: [], spots: [] },
    })
    expect(report.beds.slice(0, 6).map((bed) => bed.index)).toEqual([null, 0, 0, null, expect.closeTo(3, 9), null])
  })
})

describe('spots', () => {
  it('count to the ground within a metre, over beds in proportion, and to the nearest bed where there is none', () => {
    const spots = [
      { x: 10, y: 0.6, kg: 1 },
      { x: 10, y: 1.5, kg: 10 },
      { x: 25, y: 12, kg: 100 },
    ]
    const report = reported({ picks: { plantings: [], beds: [], spots } })
    expect(report.totalKg).toBeCloseTo(111, 9)
    expect(report.beds[0]!.kg).toBeCloseTo(6, 9)
    expect(report.beds[1]!.kg).toBeCloseTo(5, 9)
    // 25, 12 is 5 m east of the end of bed 6, which spans 10.8 to 12.
    expect(report.beds[6]!.kg).toBeCloseTo(100, 9)
    const last = report.pieces.pieces.flatMap((piece, k) =>
      report.masses.kg[k]! > 1 && piece.bed === 6 ? [piece] : [],
    )
    expect(last.every((piece) => piece.i === 19)).toBe(true)
    expect(report.notes.find((note) => note.kind === 'spots-moved')!.detail).toMatch(/^1 picked spot lies outside/)
    expect(report.beds.every((bed) => bed.index === null)).toBe(true)
  })

  it('have no ground on a farm without beds, and the report says so', () => {
    const report = yieldReport(season({ picks: { plantings: [], beds: [], spots: [{ x: 0, y: 0, kg: 2 }] } }), SETTINGS)
    expect(report).toMatchObject({ totalKg: 2, kgPerM2: null, areaM2: 0 })
    expect(report.notes.map((note) => note.kind)).toEqual(['spots-without-bed'])
  })
})

/** Every bed with tomato on both rows in stretches of 5 m, `kg(bed, stretch)` each. */
const patchwork = (kg: (bed: number, stretch: number) => number): Parts => {
  const cells = beds.flatMap((bed, b) => [0, 1, 2, 3].flatMap((s) => [0, 1].map((r) => ({ bed, b, s, r }))))
  return {
    plantings: cells.map(({ bed, s, r }) =>
      planting(`${bed.id} ${s} ${r}`, bed.id, 'tomato', { row: `${bed.id}-${r}`, fromM: 5 * s, toM: 5 * s + 5 }),
    ),
    picks: {
      plantings: cells.map(({ bed, b, s, r }) => ({ planting: `${bed.id} ${s} ${r}`, kg: kg(b, s) })),
      beds: [],
      spots: [],
    },
  }
}

describe('hot and cold', () => {
  const settings = { ...SETTINGS, stretchM: 5 }
  const corner = season({ beds, rows, ...patchwork((b, s) => (b < 4 && s < 2 ? 2 : 10)) })

  it('finds the cold corner, its area, index and shortfall, across the paths', () => {
    const report = yieldReport(corner, settings)
    expect(report.hotAndCold.tooLittle).toBeNull()
    expect(report.zones).toHaveLength(1)
    const [zone] = report.zones
    // 64 plantings of 3 m²; mean (16·2 + 48·10)/64 = 8 kg each.
    const stretches = zone!.stretches.length
    expect(zone!.areaM2).toBeCloseTo(6 * stretches, 9)
    expect(zone!.beds).toEqual(expect.arrayContaining([0, 1, 2]))
    expect(zone!.beds.every((b) => b < 4)).toBe(true)
    expect(zone!.index).toBeCloseTo(0.25, 9)
    expect(zone!.shortfallKg).toBeCloseTo(12 * stretches, 9)
    // By hand: two rows of 5 m in a stretch, expected to give 1.6 kg a metre: 12 kg are 7.5 m of it.
    expect(zone!.shortfallRowM).toBeCloseTo(7.5 * stretches, 9)
    const [first, last] = [report.beds[0]!.standing!, report.beds[7]!.standing!]
    expect(first.z).toBeLessThan(0)
    expect(last.z).toBeGreaterThan(0)
    expect(first.q).toBeGreaterThanOrEqual(first.p)
    expect(report.notes.map((note) => note.kind)).toEqual(['spread-evenly'])
    expect(report.notes[0]!.detail).toContain('64 records')
  })

  it('tells a bed by G of its own stretches together, worked by hand', () => {
    // 32 stretches, 8 at 0.25 and 24 at 1.25: mean 1, S = √(8·0.75² + 24·0.25²)/√32 = √0.1875. Bed 0: 2·0.25 + 2·1.25 = 3
    // against 4: z = −1/(√0.1875·√(4·28/31)).
    const report = yieldReport(corner, settings)
    expect(report.beds[0]!.standing!.z).toBeCloseTo(-1 / (Math.sqrt(0.1875) * Math.sqrt(112 / 31)), 9)
  })

  it('keeps cold patches apart that lie further from each other than a path', () => {
    const two = season({ beds, rows, ...patchwork((b, s) => (s === 0 && (b < 3 || b > 4) ? 1 : 10)) })
    const report = yieldReport(two, { ...settings, bandM: 3 })
    expect(
      report.zones.map((zone) =>
        zone.beds.map((b) => (b < 4 ? 'low' : 'high')).every((side, _, all) => side === all[0]),
      ),
    ).toEqual([true, true])
  })

  it('leaves out crops planted once, and says so', () => {
    const parts = patchwork((b, s) => (b < 4 && s < 2 ? 2 : 10))
    const lone = planting('garlic', 'b7', 'garlic', { row: 'b7-0', setOut: '2025-01-05' })
    const plantings = [...parts.plantings!, lone]
    const picks = { plantings: [...parts.picks!.plantings!, { planting: 'garlic', kg: 500 }] }
    const report = yieldReport(season({ beds, rows, plantings, picks }), settings)
    expect(report.zones.map((zone) => zone.index)).toEqual([expect.closeTo(0.25, 9)])
    expect(report.beds[7]!.kg).toBe(580)
    expect(report.notes.find((note) => note.kind === 'crops-planted-once')!.ids).toEqual(['garlic'])
  })

  it('tells nothing where all is even, or nothing was picked', () => {
    const even = yieldReport(season({ beds, rows, ...patchwork(() => 3) }), settings)
    expect(even.hotAndCold.tooLittle).toBe('Every stretch gave the same share of what was expected of it.')
    const unpicked = yieldReport(season({ beds, rows }), settings)
    expect(unpicked.hotAndCold.tooLittle).toBe('Nothing that can be compared was picked in this season.')
    expect(unpicked).toMatchObject({ totalKg: 0, kgPerM2: null, zones: [], notes: [] })
  })

  it('calls out hardly any stretch where there is no pattern', () => {
    // 40 farms whose plantings differ by chance alone: at a false discovery rate of 5 % few of them may show any zone.
    const random = (seed: number) => (b: number, s: number) =>
      5 + 5 * Math.abs((Math.sin(12.9898 * (seed * 32 + b * 4 + s)) * 43758.5453) % 1)
    const shown = Array.from({ length: 40 }, (_, seed) =>
      yieldReport(season({ beds, rows, ...patchwork(random(seed + 1)) }), settings),
    )
    expect(shown.filter((report) => report.zones.length > 0).length).toBeLessThanOrEqual(6)
  })
})

describe('what the command line prints', () => {
  it('has the agreed names and nulls', () => {
    const report = reported({
      plantings: [planting('t0', 'b0', 'tomato', { row: 'b0-0' })],
      picks: { plantings: [{ planting: 't0', kg: 12 }], beds: [], spots: [] },
    })
    const json = yieldJson(report, [])
    expect(Object.keys(json)).toEqual([
      'total_kg',
      'cell_m',
      'cells',
      'cells_kg',
      'area_m2',
      'kg_per_m2',
      'beds',
      'zones',
      'season',
      'seasons',
    ])
    expect(json.beds[0]).toEqual({
      id: 'b0',
      kg: 12,
      kg_per_m2: expect.closeTo(0.5, 9),
      kg_per_row_m: 0.6,
      index: expect.closeTo(1, 9),
      gi_star: null,
      p: null,
      q: null,
    })
    expect(json.beds[1]).toEqual({
      id: 'b1',
      kg: 0,
      kg_per_m2: 0,
      kg_per_row_m: null,
      index: null,
      gi_star: null,
      p: null,
      q: null,
    })
    expect(json).toMatchObject({ total_kg: 12, cell_m: 1, cells_kg: expect.closeTo(12, 9), zones: [] })
    expect(json.cells).toBe(report.pieces.pieces.length)
  })
})

it('refuses a cell that can’t be used', () => {
  for (const cellM of [0, -1, Number.NaN, 0.001]) {
    expect(() => yieldReport(season({ beds }), { ...SETTINGS, cellM })).toThrow(RangeError)
  }
})
