import { describe, expect, it } from 'vitest'
import { bedSeasons } from '../../../geo/yield/seasons/bedSeasons.ts'
import { seasonOutlook } from '../../../geo/yield/seasons/outlook.ts'
import { stretchStability, zoneStability } from '../../../geo/yield/seasons/stability.ts'
import { seasonsFigures } from '../../../geo/yield/yieldReport.ts'
import { bedWithRows, planting, SETTINGS, season } from './farms.ts'
import { rectangle } from './shapes.ts'

const cold = { z: -4, p: 0.0001, q: 0.001 }
const hot = { z: 4, p: 0.0001, q: 0.001 }
const par = { z: -0.5, p: 0.6, q: 0.9 }

describe('season against season', () => {
  it('ranks beds by their index and tells the change since the bed last had one', () => {
    const laidOut = Array.from({ length: 3 }, (_, k) => bedWithRows(`b${k}`, rectangle(0, 1.8 * k, 20, 1.2), 1))
    const year = (of: number, kg: readonly (number | null)[]) => {
      const stood = kg.flatMap((one, k) => (one === null ? [] : [{ id: `${of} ${k}`, k, kg: one }]))
      const input = season({
        beds: laidOut.map(({ bed }) => bed),
        rows: laidOut.flatMap(({ rows }) => rows),
        plantings: stood.map(({ id, k }) => planting(id, `b${k}`, 'tomato', { row: `b${k}-0` })),
        picks: { plantings: stood.map((one) => ({ planting: one.id, kg: one.kg })) },
      })
      return seasonsFigures([{ ...input, season: of }], SETTINGS, null)
    }
    const [first, second, third] = bedSeasons([
      year(2023, [10, 20, 30]),
      year(2024, [30, 10, null]),
      year(2025, [20, 20, 5]),
    ])
    expect(first!.seasons.map(({ index, rank, of }) => [index, rank, of])).toEqual([
      [expect.closeTo(0.5, 9), 3, 3],
      [expect.closeTo(1.5, 9), 1, 2],
      [expect.closeTo(20 / 15, 9), 1, 3],
    ])
    expect(second!.seasons.map(({ change }) => change)).toEqual([
      null,
      expect.closeTo(-0.5, 9),
      expect.closeTo(20 / 15 - 0.5, 9),
    ])
    expect(third!.seasons[1]).toMatchObject({ kg: 0, index: null, rank: null, change: null })
    expect(third!.seasons[2]!.change).toBeCloseTo(5 / 15 - 1.5, 9)
  })

  it('counts the seasons in which a stretch was cold, of those that tell', () => {
    const seasons = [
      [cold, null, par],
      [cold, hot, par],
      [{ ...cold, q: 0.06 }, hot, null],
    ]
    expect(stretchStability(seasons, 0.05)).toEqual([
      { told: 3, cold: 2, hot: 0 },
      { told: 2, cold: 0, hot: 2 },
      { told: 2, cold: 0, hot: 0 },
    ])
  })

  it('calls a zone cold in a season where half of its area or more was', () => {
    const stretch = { bed: 0, x: 0, y: 0, rings: [], kg: 1, expectedKg: 2, rowM: 4, parts: [] }
    const stretches = [6, 4, 10].map((areaM2) => ({ ...stretch, areaM2 }))
    const zone = {
      areaM2: 20,
      kg: 1,
      expectedKg: 2,
      index: 0.5,
      shortfallKg: 1,
      shortfallRowM: 4,
      beds: [0],
      stretches: [0, 1, 2],
    }
    const seasons = [
      { season: 2023, standings: [cold, cold, par] },
      { season: 2024, standings: [cold, par, par] },
      { season: 2025, standings: [null, cold, null] },
    ]
    expect(zoneStability(zone, stretches, seasons, 0.05)).toEqual({
      toldSeasons: [2023, 2024],
      coldSeasons: [2023],
    })
  })
})

describe('what the season is to give', () => {
  const ground = { crop: 'tomato', areaM2: 100, plantings: 4, pickedKg: 120 }
  const earlier = (kgPerM2: readonly number[]) =>
    kgPerM2.map((one, k) => ({ season: 2020 + k, crop: 'tomato', kgPerM2: one, shareByDay: 0.25 * (k + 1) }))

  it('rests on own seasons with the prediction interval of one more, as R has it', () => {
    // R 4.2.2 (X): y <- c(3, 4, 5.5); predict(lm(y ~ 1), data.frame(row.names = 1), interval = "prediction")
    // fit 4.16666666666667, lwr -2.08494281270911, upr 10.4182761460424
    const [crop] = seasonOutlook([ground], earlier([3, 4, 5.5]), []).crops
    expect(crop!.expectedKg).toBeCloseTo(416.666666666667, 9)
    expect(crop!.highKg).toBeCloseTo(1041.82761460424, 7)
    // Less than nothing can't be picked, nor less than is picked already.
    expect(crop).toMatchObject({ lowKg: 120, rests: 'own seasons', seasons: [2020, 2021, 2022], usualShareByNow: 0.5 })
  })

  it('has no bounds from one season, else rests on the usual yield, else on nothing', () => {
    const grounds = ['tomato', 'leek', 'mint'].map((crop) => ({ ...ground, crop }))
    const usual = [
      { crop: 'leek', lowKgPerM2: 3, highKgPerM2: 4, source: 'a table' },
      { crop: 'tomato', lowKgPerM2: 1, highKgPerM2: 9, source: 'a table' },
    ]
    const outlook = seasonOutlook(grounds, earlier([3]), usual)
    expect(outlook.crops).toMatchObject([
      { expectedKg: 300, lowKg: null, highKg: null, rests: 'own seasons' },
      { expectedKg: 350, lowKg: 300, highKg: 400, rests: 'usual yield', source: 'a table' },
      { expectedKg: null, rests: 'nothing' },
    ])
    expect(outlook).toMatchObject({ pickedKg: 360, expectedKg: 650, lowKg: 600, highKg: 700, unknown: ['mint'] })
  })
})
