import { expect, it } from 'vitest'
import { quantileT, twoSidedT } from '../../../geo/yield/studentT.ts'

// R 4.2.2: 2 * pt(-t, df), qt(.975, df) (X).
it.each([
  [2.5, 3, 0.0877066470080655],
  [0.3, 1, 0.814452841844515],
  [4, 60.5, 0.000175045639421623],
])('is passed by %f with %f degrees of freedom with chance %f', (t, df, p) => {
  expect(Math.abs(twoSidedT(t, df) / p - 1)).toBeLessThan(1e-12)
  expect(Math.abs(quantileT(p, df) / t - 1)).toBeLessThan(1e-10)
})

it.each([
  [1, 12.7062047361747],
  [2, 4.30265272974946],
  [5, 2.57058183563631],
  [30, 2.04227245630124],
  [221, 1.97075627048947],
])('of %i degrees of freedom passes %f one time in twenty', (df, t) => {
  expect(Math.abs(quantileT(0.05, df) / t - 1)).toBeLessThan(1e-12)
})
