import { describe, expect, it } from 'vitest'
import { sameDayIn } from '../../../geo/yield/season.ts'
import { bedSeasons } from '../../../geo/yield/seasons/bedSeasons.ts'
import { seasonOutlook } from '../../../geo/yield/seasons/outlook.ts'
import { type LoosePick, pickedByCrop } from '../../../geo/yield/seasons/pickedByCrop.ts'
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
  const ground = { crop: 'tomato', areaM2: 100, standingM2: 100, plantings: 4, pickedKg: 0 }
  const earlier = (kgPerM2: readonly number[], shares: readonly number[], standingShare = 1) =>
    kgPerM2.map((one, k) => ({
      season: 2020 + k,
      crop: 'tomato',
      kgPerM2: one,
      shareByDay: shares[k]!,
      standingShare,
    }))
  const ofOne = (more: Partial<typeof ground>, ...rest: Parameters<typeof earlier>) =>
    seasonOutlook([{ ...ground, ...more }], earlier(...rest), [], 0).crops[0]!

  it('rests on own seasons with the prediction interval of one more, as R has it', () => {
    // R 4.2.2 (X): y <- c(3, 4, 5.5); predict(lm(y ~ 1), data.frame(row.names = 1), interval = "prediction")
    // fit 4.16666666666667, lwr -2.08494281270911, upr 10.4182761460424
    const crop = ofOne({}, [3, 4, 5.5], [0, 0, 0])
    expect(crop.expectedKg).toBeCloseTo(416.666666666667, 9)
    expect(crop.highKg).toBeCloseTo(1041.82761460424, 7)
    // Less than nothing can't be picked.
    expect(crop).toMatchObject({ lowKg: 0, rests: 'own seasons', seasons: [2020, 2021, 2022], usualShareByNow: 0 })
  })

  it('adds to what is picked what own seasons gave after the day', () => {
    // By hand: 3 × 0.75, 4 × 0.5 and 5.5 × 0.25 kg/m² were still to come, 1.875 in the middle. Their interval as above:
    // lwr -0.3641714737574, upr 4.1141714737574.
    const crop = ofOne({ pickedKg: 120 }, [3, 4, 5.5], [0.25, 0.5, 0.75])
    expect(crop.expectedKg).toBeCloseTo(120 + 187.5, 9)
    expect(crop.highKg).toBeCloseTo(120 + 411.41714737574, 7)
    expect(crop).toMatchObject({ lowKg: 120, usualShareByNow: 0.5 })
  })

  it('counts on so much less as less of the ground still stands than did then', () => {
    // By hand: a quarter of the ground stands, then half did; so half of 100 m² × (3 × 0.5) kg/m² is still to come.
    expect(ofOne({ standingM2: 25, pickedKg: 40 }, [3], [0.5], 0.5).expectedKg).toBeCloseTo(40 + 75, 9)
    // More of it stands than did then: no more than then is counted on.
    expect(ofOne({ standingM2: 80, pickedKg: 40 }, [3], [0.5], 0.5).expectedKg).toBeCloseTo(40 + 150, 9)
  })

  it('is what is picked, without a range, once all of a crop is cleared', () => {
    const over = ofOne({ standingM2: 0, pickedKg: 120 }, [3, 4, 5.5], [0.25, 0.5, 0.75])
    expect(over).toMatchObject({ expectedKg: 120, lowKg: null, highKg: null, rests: 'all cleared' })
  })

  it('has no bounds from one season or from seasons that all were over by then', () => {
    expect(ofOne({ pickedKg: 9 }, [3], [0])).toMatchObject({ expectedKg: 309, lowKg: null, highKg: null })
    expect(ofOne({ pickedKg: 9 }, [3, 4], [1, 1])).toMatchObject({ expectedKg: 9, lowKg: null, highKg: null })
  })

  it('rests on the usual yield where no own season tells, never below what is picked, else on nothing', () => {
    const grounds = [120, 360, 500].flatMap((pickedKg) => [{ ...ground, crop: 'leek', pickedKg }])
    const usual = [
      { crop: 'leek', lowKgPerM2: 3, highKgPerM2: 4, source: 'a table' },
      { crop: 'tomato', lowKgPerM2: 1, highKgPerM2: 9, source: 'a table' },
    ]
    const outlook = seasonOutlook([...grounds, { ...ground, crop: 'mint', pickedKg: 7 }], earlier([3], [0]), usual, 5)
    expect(outlook.crops).toMatchObject([
      { expectedKg: 350, lowKg: 300, highKg: 400, rests: 'usual yield', source: 'a table' },
      { expectedKg: 360, lowKg: 360, highKg: 400 },
      { expectedKg: 500, lowKg: 500, highKg: 500 },
      { expectedKg: null, rests: 'nothing' },
    ])
    // What is picked of a crop of which nothing is known, and of no crop, is in all sums alike: 7 and 5 kg.
    expect(outlook).toMatchObject({ pickedKg: 992, expectedKg: 1222, lowKg: 1172, highKg: 1312, unknown: ['mint'] })
  })

  it('tells no range where no crop has any, and nothing where nothing is known', () => {
    const cleared = { ...ground, standingM2: 0, pickedKg: 50 }
    expect(seasonOutlook([cleared], [], [], 3)).toMatchObject({
      pickedKg: 53,
      ofNoCropKg: 3,
      expectedKg: 53,
      lowKg: null,
      highKg: null,
    })
    expect(seasonOutlook([ground], [], [], 3)).toMatchObject({ pickedKg: 3, expectedKg: null, lowKg: null })
  })
})

describe('picks of a season by crop', () => {
  // Two beds of 10 m × 1 m, 1 m apart: lettuce and then beans in the first, leek beside carrots in the second.
  const beds = ['b0', 'b1'].map((id, k) => ({ id, rings: [rectangle(0, 2 * k, 10, 1)] }))
  const input = season({
    beds,
    plantings: [
      planting('a', 'b0', 'lettuce', { setOut: '2025-04-01', cleared: '2025-06-01' }),
      planting('b', 'b0', 'bean', { setOut: '2025-06-10', cleared: '2025-09-01' }),
      planting('c', 'b1', 'leek'),
      planting('d', 'b1', 'carrot', { cleared: null }),
    ],
  })
  const ground = seasonsFigures([input], SETTINGS, null).ground
  const pick = (on: string, kg: number, more: Partial<LoosePick> = {}): LoosePick => {
    return { on, byDay: on <= '2025-07-01', bed: null, x: null, y: null, kg, ...more }
  }
  const told = [{ crop: 'leek', kg: 30, byDayKg: 10 }]
  const byCrop = (loose: readonly LoosePick[]) => {
    const { crops, ofNoCrop } = pickedByCrop(input, ground, told, loose)
    return { ...Object.fromEntries(crops), ofNoCrop }
  }

  it('told by bed count to the crop that stood there alone on the day, on the day of clearing too', () => {
    const picks = [pick('2025-05-20', 4), pick('2025-06-01', 2), pick('2025-08-01', 8)]
    expect(byCrop(picks.map((one) => ({ ...one, bed: 'b0' })))).toEqual({
      lettuce: { kg: 6, byDayKg: 6 },
      bean: { kg: 8, byDayKg: 0 },
      leek: { kg: 30, byDayKg: 10 },
      ofNoCrop: { kg: 0, byDayKg: 0 },
    })
  })

  it('told where several crops stood, or none did and several had in the season, belong to none', () => {
    const picks = [pick('2025-08-01', 3, { bed: 'b1' }), pick('2025-06-05', 5, { bed: 'b0' })]
    expect(byCrop(picks)).toEqual({ leek: { kg: 30, byDayKg: 10 }, ofNoCrop: { kg: 8, byDayKg: 5 } })
    // In December the carrots alone still stand in the second bed.
    expect(byCrop([pick('2025-12-01', 3, { bed: 'b1' })])).toMatchObject({ carrot: { kg: 3, byDayKg: 0 } })
  })

  it('told by spot count by the beds within a metre, by their ground there', () => {
    // Half way between the beds, 0.5 m from each, both have as much of the circle: half to each.
    expect(byCrop([pick('2025-08-01', 6, { x: 5, y: 1.5 })])).toEqual({
      bean: { kg: expect.closeTo(3, 9), byDayKg: 0 },
      leek: { kg: 30, byDayKg: 10 },
      ofNoCrop: { kg: expect.closeTo(3, 9), byDayKg: 0 },
    })
  })

  it('belong to none on a farm without beds', () => {
    const bare = pickedByCrop(season({}), [], [], [pick('2025-05-20', 4, { x: 0, y: 0 })])
    expect(bare).toEqual({ crops: new Map(), ofNoCrop: { kg: 4, byDayKg: 4 } })
  })
})

describe('the same day of a season', () => {
  it('is as many days after its first, over a leap day and the turn of the year too', () => {
    expect(sameDayIn(2024, '2025-12-31', 1)).toBe('2024-12-30')
    expect(sameDayIn(2022, '2025-02-10', 4)).toBe('2023-02-10')
    expect(sameDayIn(2023, '2025-07-20', 1)).toBe('2023-07-20')
  })
})
