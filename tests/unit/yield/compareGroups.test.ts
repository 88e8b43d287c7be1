import { describe, expect, it } from 'vitest'
import { type ComparedPlanting, compareGroups, percentile } from '../../../geo/yield/compareGroups.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

/** About normal: twelve throws less six. */
const thrown = (random: () => number): number => Array.from({ length: 12 }, random).reduce((t, v) => t + v, 0) - 6

const invented = (group: string, count: number, mean: number, seed: number): ComparedPlanting[] => {
  const random = seededRandom(seed)
  return Array.from({ length: count }, () => {
    const rowM = 10 + 20 * random()
    return { group, rowM, kg: rowM * (mean + 0.5 * thrown(random)) }
  })
}

describe('comparing groups', () => {
  it('gives all the kg over all the row metres and the number of plantings', () => {
    const [net, weave] = compareGroups(
      [
        { group: 'weave', kg: 30, rowM: 10 },
        { group: 'net', kg: 12, rowM: 4 },
        { group: 'weave', kg: 10, rowM: 30 },
      ],
      1,
    )
    expect(net).toEqual({ group: 'net', plantings: 1, rowM: 4, kgPerRowM: 3, low: null, high: null })
    expect(weave).toMatchObject({ group: 'weave', plantings: 2, rowM: 40, kgPerRowM: 1 })
    // Of two plantings a redraw is one of them twice, or both: their own rates are the ends of the interval.
    expect([weave!.low, weave!.high]).toEqual([1 / 3, 3])
  })

  it('has the width that the sampling error of a ratio has', () => {
    // Oracle: 1.96 times the standard error of a ratio of means by linearisation (Cochran 1977, Sampling Techniques,
    // 3rd ed., eq. 2.39 and 6.13 without the finite population factor); the bootstrap comes to the same for many plantings.
    const plantings = invented('net', 200, 3, 7)
    const [net] = compareGroups(plantings, 11)
    const meanM = net!.rowM / 200
    const residuals = plantings.map((p) => p.kg - net!.kgPerRowM * p.rowM)
    const error = Math.sqrt(residuals.reduce((t, r) => t + r * r, 0) / 199 / 200) / meanM
    expect((net!.high! - net!.low!) / (2 * 1.96 * error)).toBeGreaterThan(0.92)
    expect((net!.high! - net!.low!) / (2 * 1.96 * error)).toBeLessThan(1.08)
    expect(net!.low!).toBeLessThan(3)
    expect(net!.high!).toBeGreaterThan(3)
  })

  it('is the same for the same seed, whatever else is compared', () => {
    const net = invented('net', 12, 3, 3)
    const weave = invented('weave', 9, 2, 4)
    const alone = compareGroups(net, 5)
    expect(compareGroups([...weave, ...net], 5)[0]).toEqual(alone[0])
    expect(compareGroups(net, 6)[0]!.low).not.toBe(alone[0]!.low)
  })

  it('refuses a planting without row metres', () => {
    expect(() => compareGroups([{ group: 'net', kg: 1, rowM: 0 }], 1)).toThrow('0 row metres')
  })
})

describe('percentile', () => {
  it('is that of R’s quantile, type 7', () => {
    // R 4.2.2: quantile(c(1, 2, 4, 8, 16), c(.025, .5, .9)) (X).
    const values = [1, 2, 4, 8, 16]
    for (const [share, wanted] of [
      [0.025, 1.1],
      [0.5, 4],
      [0.9, 12.8],
    ] as const)
      expect(percentile(values, share)).toBeCloseTo(wanted, 12)
  })
})
