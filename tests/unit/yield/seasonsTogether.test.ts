import { describe, expect, it } from 'vitest'
import { seasonsReport, yieldReport } from '../../../geo/yield/yieldReport.ts'
import { bedWithRows, planting, SETTINGS, season } from './farms.ts'
import { rectangle } from './shapes.ts'

const laidOut = Array.from({ length: 3 }, (_, k) => bedWithRows(`b${k}`, rectangle(0, 1.8 * k, 20, 1.2), 1))
const beds = laidOut.map(({ bed }) => bed)
const rows = laidOut.flatMap((bed) => bed.rows)

/** Tomato in the first two beds and kale in the third; kg of the first two as given, 5 kg of kale. */
const year = (of: number, first: number, second: number) => ({
  ...season({
    beds,
    rows,
    plantings: [
      planting(`a${of}`, 'b0', 'tomato', { row: 'b0-0' }),
      planting(`b${of}`, 'b1', 'tomato', { row: 'b1-0' }),
      planting(`c${of}`, 'b2', 'kale', { row: 'b2-0' }),
    ],
    picks: {
      plantings: [
        { planting: `a${of}`, kg: first },
        { planting: `b${of}`, kg: second },
        { planting: `c${of}`, kg: 5 },
      ],
      beds: [{ bed: 'b2', kg: 1 }],
    },
  }),
  season: of,
})

describe('seasons together', () => {
  it('add up mass and row metres, take density a season, and hold each season against itself, worked by hand', () => {
    // b0: 30 of 40 expected (mean of 30 and 10 is 20) in 2024 … a poor 2024 and a rich 2025 don't colour the index:
    // 30/20 and 150/100, so (30 + 150)/(20 + 100) = 1.5.
    const report = seasonsReport([year(2024, 30, 10), year(2025, 150, 50)], SETTINGS, null)
    expect(report.seasons).toEqual([2024, 2025])
    expect(report.totalKg).toBeCloseTo(30 + 10 + 150 + 50 + 12, 9)
    expect(report.beds.map((bed) => bed.index)).toEqual([1.5, 0.5, 1].map((index) => expect.closeTo(index, 9)))
    expect(report.beds[0]).toMatchObject({
      kg: 180,
      rowM: 40,
      kgPerRowM: 4.5,
      kgPerM2: expect.closeTo(180 / 24 / 2, 9),
    })
    expect(report.kgPerM2).toBeCloseTo(252 / 72 / 2, 9)
  })

  it('of a season with itself are as one, of twice the mass', () => {
    const alone = yieldReport(year(2024, 30, 10), SETTINGS)
    const twice = seasonsReport([year(2024, 30, 10), year(2024, 30, 10)], SETTINGS, null)
    expect(twice.totalKg).toBeCloseTo(2 * alone.totalKg, 9)
    expect(twice.kgPerM2).toBeCloseTo(alone.kgPerM2!, 9)
    twice.smooth.kg.forEach((kg, k) => {
      expect(kg).toBeCloseTo(2 * alone.smooth.kg[k]!, 9)
    })
    expect(twice.notes).toEqual(alone.notes)
  })
})

describe('one crop', () => {
  it('is told alone, with what was told only by bed where the bed’s one crop it is', () => {
    const input = year(2024, 30, 10)
    const kale = seasonsReport([input], SETTINGS, new Set(['kale']))
    expect(kale.totalKg).toBeCloseTo(6, 9)
    expect(kale.beds.map((bed) => bed.index)).toEqual([null, null, 1])
    expect(kale.crops.map(({ crop }) => crop)).toEqual(['kale'])
    const parts = ['kale', 'tomato'].map((crop) => seasonsReport([input], SETTINGS, new Set([crop])).totalKg)
    expect(parts[0]! + parts[1]!).toBeCloseTo(yieldReport(input, SETTINGS).totalKg, 9)
  })
})
