import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { scaleBar } from '../../../src/sheets/show/scaleBar.ts'

/** The length that a bar tells, in metres. An international foot is 0.3048 m, exact: NIST Handbook 44, appendix C (C). */
function toldM(whole: string): number {
  const [number, unit] = whole.split(' ')
  return Number(number!.replaceAll(',', '')) * { m: 1, km: 1000, ft: 0.3048 }[unit as 'm' | 'km' | 'ft']
}

describe('the scale bar', () => {
  it('is as long on the screen as it says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.002, max: 80_000, noNaN: true }),
        fc.constantFrom('metric' as const, 'us' as const),
        (metresPerPixel, units) => {
          const { widthPx, whole, half } = scaleBar(metresPerPixel, 132, units)
          expect(Math.abs(widthPx * metresPerPixel - toldM(whole)) / toldM(whole)).toBeLessThan(1e-9)
          expect(toldM(`${half} ${whole.split(' ')[1]}`)).toBeCloseTo(toldM(whole) / 2, 9)
        },
      ),
      { seed: 20261124, numRuns: 500 },
    )
  })

  it('is a round length, and between two fifths and the whole of its room', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.002, max: 80_000, noNaN: true }), (metresPerPixel) => {
        const { widthPx, whole } = scaleBar(metresPerPixel, 132, 'metric')
        expect(widthPx).toBeLessThanOrEqual(132 * (1 + 1e-12))
        expect(widthPx).toBeGreaterThanOrEqual(132 * 0.4 * (1 - 1e-12))
        expect(['1', '2', '5']).toContain(
          toldM(whole)
            .toPrecision(1)
            .replace(/e.*/, '')
            .replace(/^0\.0*/, '')
            .charAt(0),
        )
      }),
      { seed: 20261124, numRuns: 500 },
    )
  })

  it('tells two kilometres and more in kilometres', () => {
    expect(scaleBar(20, 132, 'metric').whole).toBe('2 km')
    expect(scaleBar(10, 132, 'metric').whole).toBe('1,000 m')
  })
})
