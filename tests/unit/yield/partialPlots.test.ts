import { describe, expect, it } from 'vitest'
import type { Factor } from '../../../geo/yield/near/factor.ts'
import { whitening } from '../../../geo/yield/near/gls.ts'
import { partialPlots } from '../../../geo/yield/near/partialPlots.ts'
import { zoneFactorWords } from '../../../geo/yield/near/words.ts'
import { zoneFactor } from '../../../geo/yield/near/zoneNear.ts'

const list = <T>(n: number, of: (k: number) => T): T[] => Array.from({ length: n }, (_, k) => of(k))
const factor = (id: string, values: readonly number[], more: Partial<Factor> = {}): Factor => {
  return { id, kind: 'fence', name: null, reachM: 5, values, among: null, ...more }
}
const white = (n: number, rangeM: number) =>
  whitening(
    { xs: list(n, (k) => 6 * (k % 8)), ys: list(n, (k) => 2 * Math.floor(k / 8)), variances: list(n, () => 1) },
    [list(n, (k) => k)],
    { rangeM, nugget: rangeM > 0 ? 0.3 : 1 },
  )!

describe('partial plots', () => {
  const a = factor(
    'a',
    list(40, (k) => ((7 * k) % 11) / 10),
  )
  const b = factor(
    'b',
    list(40, (k) => Math.floor(k / 2) % 2),
  )
  const index = list(40, (k) => 1 - 0.3 * a.values[k]! + 0.1 * b.values[k]! + 0.05 * Math.sin(k))

  it('of factors looked at together have the line, the interval and the residuals that R has', () => {
    // R 4.2.2 with nlme 3.1 (X): k <- 0:39; d <- data.frame(x = 6*(k%%8), y = 2*(k%/%8), a = ((7*k)%%11)/10,
    // b = (k%/%2)%%2); d$i <- 1 - 0.3*d$a + 0.1*d$b + 0.05*sin(k); f <- gls(i ~ a + b, d, correlation =
    // corExp(c(5, 0.3), form = ~ x + y, nugget = TRUE, fixed = TRUE)); x <- c(1, v, mean(d$b));
    // sum(x*coef(f)) + c(0, -1, 1) * qt(.975, 37) * sqrt(t(x) %*% vcov(f) %*% x) at v = 0 and 1, and
    // coef(f)[1] + coef(f)[3]*mean(d$b) + coef(f)[2]*d$a + (d$i - fitted) of the first, second and last.
    const { partial, partialMethod } = partialPlots(index, [a, b], white(40, 5))
    const [first] = partial
    expect(first).toMatchObject({ id: 'a', heldWith: ['b'] })
    expect(first!.effect).toBeCloseTo(-0.294147179036, 10)
    expect([first!.low, first!.high]).toEqual([-0.337313270346, -0.250981087727].map((v) => expect.closeTo(v, 7)))
    expect([first!.line[0], first!.line.at(-1)]).toEqual(
      [
        [0, 1.05098742251, 1.013140883, 1.08883396203],
        [1, 0.756840243476, 0.71919267499, 0.794487811963],
      ].map(([value, middle, low, high]) => ({
        value,
        index: expect.closeTo(middle!, 9),
        low: expect.closeTo(low!, 7),
        high: expect.closeTo(high!, 7),
      })),
    )
    expect([0, 1, 39].map((k) => first!.points[k]!.index)).toEqual(
      [1.055149213851, 0.887222763091, 0.823040555464].map((v) => expect.closeTo(v, 9)),
    )
    expect(partialMethod).toMatch(/^In the drawings these are looked at together, .*: a, b\.$/)
  })

  it('look at one thing at a time where plots are too few, and say so', () => {
    // Nine of eighteen plots each: ten with it and ten without are asked for.
    const few = [a, b].map((one) => ({ ...one, values: one.values.slice(0, 18) }))
    const { partial, partialMethod } = partialPlots(index.slice(0, 18), few, white(18, 0))
    expect(partial.map(({ heldWith }) => heldWith)).toEqual([[], []])
    expect(partialMethod).toMatch(/^In the drawings one thing is looked at at a time: it takes two things or more/)
    // Alone and with independent errors the slope is that of a straight line through the points, by least squares.
    const { points, effect } = partial[0]!
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v / values.length, 0)
    const [mx, my] = [mean(few[0]!.values), mean(index.slice(0, 18))]
    const above = few[0]!.values.reduce((sum, v, k) => sum + (v - mx) * (index[k]! - my), 0)
    expect(effect).toBeCloseTo(above / few[0]!.values.reduce((sum, v) => sum + (v - mx) ** 2, 0), 10)
    expect(points.map((point) => point.index)).toEqual(index.slice(0, 18).map((v) => expect.closeTo(v, 10)))
  })

  it('look alone at what lies as the others do, and at signs, which may come of them', () => {
    const twin = factor(
      'twin',
      a.values.map((v, k) => v + 0.01 * (k % 3)),
    )
    const seen = factor(
      'seen',
      list(40, (k) => k % 2),
      { kind: 'seen' },
    )
    const { partial, partialMethod } = partialPlots(index, [a, b, twin, seen], white(40, 5))
    expect(partial.map(({ id, heldWith }) => [id, heldWith])).toEqual([
      ['a', ['b']],
      ['b', ['a']],
      ['twin', []],
      ['seen', []],
    ])
    expect(partialMethod).toMatch(/Looked at alone, .*: twin, seen\.$/)
  })

  it('draw of a factor only the plots that it can be told of', () => {
    const among = list(40, (k) => k >= 12)
    const net = factor(
      'net',
      list(40, (k) => Number(k % 3 === 0)),
      { kind: 'support', among },
    )
    const { partial } = partialPlots(index, [b, net], white(40, 0))
    expect(partial.map(({ id, points }) => [id, points.length])).toEqual([
      ['b', 40],
      ['net', 28],
    ])
  })
})

describe('a factor in a zone', () => {
  it('is its mean there against that elsewhere, of plots that it can be told of', () => {
    const shade = factor('shade', [0.6, 0.2, 0.1, 0.3, 0.9], { kind: 'shade', reachM: null })
    const inside = [true, true, false, false, false]
    const told = zoneFactor({ ...shade, among: [true, true, true, true, false] }, inside)!
    expect([told.here, told.elsewhere]).toEqual([0.4, 0.2].map((v) => expect.closeTo(v, 12)))
    const words = zoneFactorWords(told, (m) => `${m} m`)
    expect(words).toBe('hours of direct sun lost to trees and supports: 40 % here, 20 % elsewhere')
    expect(zoneFactor({ ...shade, among: [false, false, true, true, true] }, inside)).toBeNull()
    expect(zoneFactor(shade, [true, true, true, true, true])).toMatchObject({ elsewhere: null })
    expect(zoneFactorWords(zoneFactor(factor('fence', [1, 0]), [true, false])!, (m) => `${m} m`)).toBe(
      'nearness of a fence (100 % at it, 0 from 5 m on): 100 % here, 0 % elsewhere',
    )
  })
})
