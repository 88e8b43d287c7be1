import { describe, expect, it } from 'vitest'
import { type ComparedPlanting, comparisons } from '../../../geo/yield/compare/comparisons.ts'
import { rateDifference } from '../../../geo/yield/compare/rateDifference.ts'
import { signFlipP } from '../../../geo/yield/compare/signFlip.ts'
import { quantileNormal } from '../../../geo/yield/normal.ts'
import { sideOf } from '../../../geo/yield/plots/sideOf.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import { rectangle } from './shapes.ts'

const unit = (place: string, kg: number, size: number) => ({ place, kg, size })
const A_KG = [31, 44, 25, 61, 38, 52, 47, 29]
const A_M = [9, 11, 8, 14, 10, 12, 12, 9]
const B_KG = [22, 35, 18, 40, 33, 27, 30, 24, 45]
const B_M = [9, 12, 8, 13, 10, 9, 11, 8, 15]
const a = A_KG.map((kg, k) => unit(`a${k}`, kg, A_M[k]!))
const b = B_KG.map((kg, k) => unit(`b${k}`, kg, B_M[k]!))

describe('rates against each other', () => {
  it('have the BCa interval and the permutation p of R where not paired', () => {
    // R 4.2.2, boot 1.3-28.1 (X), 100,000 redraws; ours are 4,000, so ends agree to about 0.02 and p to 0.0005:
    // st <- function(d, i) { x <- d[i, ]; with(x[x$g == 1, ], sum(kg) / sum(m)) - with(x[x$g == 2, ], sum(kg) / sum(m)) }
    // set.seed(1); B <- boot(d, st, 100000, strata = d$g); boot.ci(B, type = "bca")     0.6093, 1.3074
    // mean(replicate(100000, …sample(d$g)…) >= B$t0)                                   0.00011
    const told = rateDifference(a, b, 7)!
    expect(told).toMatchObject({ paired: false, counts: [8, 9] })
    expect(told.difference).toBeCloseTo(0.962848297213622, 12)
    expect(Math.abs(told.low! - 0.6093)).toBeLessThan(0.025)
    expect(Math.abs(told.high! - 1.3074)).toBeLessThan(0.025)
    expect(told.p).toBeLessThan(0.0012)
  })

  it('are set against each other within beds where six or more carried both', () => {
    // R 4.2.2, boot 1.3-28.1 (X): d <- c(0.31, 0.12, -0.05, 0.44, 0.27, 0.19, 0.08, -0.11, 0.36)
    // set.seed(3); boot.ci(boot(d, function(v, i) mean(v[i]), 100000), type = "bca")     0.0567, 0.2856
    // s <- as.matrix(expand.grid(rep(list(c(-1, 1)), 9))); mean(abs(s %*% d) >= sum(d))  14/512
    const d = [0.31, 0.12, -0.05, 0.44, 0.27, 0.19, 0.08, -0.11, 0.36]
    const told = rateDifference(
      d.map((more, k) => unit(`bed ${k}`, (3 + more) * 10, 10)),
      d.map((_, k) => unit(`bed ${k}`, 3 * (5 + k), 5 + k)),
      11,
    )!
    expect(told).toMatchObject({ paired: true, counts: [9], p: 14 / 512 })
    expect(told.difference).toBeCloseTo(0.178888888888889, 12)
    expect(Math.abs(told.low! - 0.0567)).toBeLessThan(0.015)
    expect(Math.abs(told.high! - 0.2856)).toBeLessThan(0.015)
  })

  it('are too little to tell with five pairs and four beds of one', () => {
    const five = a.slice(0, 5).map((one, k) => ({ ...one, place: `bed ${k}` }))
    const four = b.slice(0, 4).map((one, k) => ({ ...one, place: `bed ${k}` }))
    expect(rateDifference(five, four, 1)).toBeNull()
    expect(rateDifference(a, b.slice(0, 4), 1)).toBeNull()
    expect(rateDifference(a, b.slice(0, 5), 1)).not.toBeNull()
  })

  it('draw patterns of signs for many pairs near to what all of them give', () => {
    // For 13 pairs all 8,192 patterns can still be gone through here.
    const random = seededRandom(5)
    const d = Array.from({ length: 13 }, () => random() - 0.35)
    const sum = Math.abs(d.reduce((total, one) => total + one, 0))
    let asFar = 0
    for (let pattern = 0; pattern < 8192; pattern += 1)
      if (Math.abs(d.reduce((total, one, k) => total + ((pattern >> k) & 1 ? one : -one), 0)) >= sum - 1e-12) asFar += 1
    expect(Math.abs(signFlipP(d, seededRandom(9)) - asFar / 8192)).toBeLessThan(0.012)
  })
})

it('knows the normal quantiles of R', () => {
  // R 4.2.2: qnorm(c(.025, .3, 1e-8)) (X).
  const wanted = [-1.959963984540054, -0.524400512708041, -5.61200124417479]
  ;[0.025, 0.3, 1e-8].forEach((p, k) => {
    expect(quantileNormal(p)).toBeCloseTo(wanted[k]!, 9)
  })
})

describe('what gave more', () => {
  const net = { id: 'net', name: 'Net' }
  const weave = { id: 'weave', name: 'String weave' }
  const row = (
    bed: number,
    system: typeof net,
    kg: number,
    more: Partial<ComparedPlanting> = {},
  ): ComparedPlanting => ({
    season: 2025,
    bed: `b${bed}`,
    crop: 'tomato',
    cropName: 'Tomato',
    kg,
    rowM: 10,
    plants: 20,
    groups: { system, variety: null, side: null },
    ...more,
  })
  const beds = Array.from({ length: 8 }, (_, k) => k)

  it('is told within a crop, per row metre and per plant, with how many plantings', () => {
    const told = comparisons(
      beds.flatMap((k) => [row(k, net, 40 + k), row(k, weave, 25 + (k % 3))]),
      1,
    )
    expect(told.map(({ per, a, b, verdict }) => [per, a.name, b.name, verdict])).toEqual([
      ['row metre', 'Net', 'String weave', 'differ'],
      ['plant', 'Net', 'String weave', 'differ'],
    ])
    expect(told[0]!.a).toEqual({ id: 'net', name: 'Net', plantings: 8, beds: 8, rowM: 80, rate: 348 / 80 })
    expect(told[0]!.told).toMatchObject({ paired: true, p: 2 / 256, q: 2 / 256 })
    expect(told[1]!.a.rate).toBeCloseTo(348 / 160, 12)
  })

  it('counts a bed once however many plantings it was picked as, so that repeats prove nothing', () => {
    const four = beds.slice(0, 4).flatMap((k) => Array.from({ length: 6 }, () => row(k, net, 40)))
    const others = beds.slice(4).flatMap((k) => Array.from({ length: 6 }, () => row(k, weave, 20)))
    const [told] = comparisons([...four, ...others], 1)
    expect(told).toMatchObject({ told: null, verdict: 'too little to tell', a: { plantings: 24, beds: 4 } })
  })

  it('does not take a good year for a better system', () => {
    const [told] = comparisons(
      beds.flatMap((k) => [
        row(k, k % 4 === 0 ? weave : net, 40 + (k % 3), { season: 2024 }),
        row(k + 20, k % 4 === 0 ? net : weave, 20 + ((k + 1) % 3), { season: 2025 }),
        row(k + 40, k % 2 === 0 ? net : weave, 20 + (k % 3), { season: 2025 }),
      ]),
      1,
    )
    expect(told).toMatchObject({ per: 'row metre', verdict: 'no difference that is sure' })
    expect(Math.abs(told!.told!.difference)).toBeLessThan(0.15)
  })

  it('is not told where chance does as much, nor per plant where plants were not counted', () => {
    const random = seededRandom(4)
    const told = comparisons(
      beds.flatMap((k) => [row(k, net, 30 + 10 * random(), { plants: null }), row(k, weave, 30 + 10 * random())]),
      1,
    )
    expect(told.map(({ per, verdict }) => [per, verdict])).toEqual([['row metre', 'no difference that is sure']])
  })
})

it('tells the side of a bed by compass', () => {
  const axis = (ux: number, uy: number, middleM: number) => ({ ux, uy, startM: 0, lengthM: 20, acrossM: 1.2, middleM })
  // A bed from 0,0 to 20,1.2 runs east: its middle lies at 0.6 to the left of the axis.
  const east = axis(1, 0, 0.6)
  expect(sideOf([rectangle(0, 0, 20, 0.4)], east, 1.2)).toBe('south edge')
  expect(sideOf([rectangle(0, 0.4, 20, 0.4)], east, 1.2)).toBe('middle')
  expect(sideOf([rectangle(0, 0.8, 20, 0.4)], east, 1.2)).toBe('north edge')
  // One from 0,0 to 1.2,20 runs north: left of the axis is west, its middle at −0.6.
  const north = axis(0, 1, -0.6)
  expect(sideOf([rectangle(0, 0, 0.4, 20)], north, 1.2)).toBe('west edge')
  expect(sideOf([rectangle(0.8, 0, 0.4, 20)], north, 1.2)).toBe('east edge')
})
