import { describe, expect, it } from 'vitest'
import { postBendingPa, roundSectionM3, windPressurePa } from '../../geo/supports/load/wind.ts'
import {
  catenaryOfLengthN,
  catenarySagM,
  catenaryTensionN,
  GRAVITY,
  loadedPullN,
  parabolaSagM,
  parabolaTensionN,
  wireAreaM2,
} from '../../geo/supports/load/wire.ts'
import { wireByName } from '../../geo/supports/load/wireGauge.ts'

const POUND_N = 4.4482216152605
const FOOT_M = 0.3048
const MPH = 0.44704
const PSF_PA = POUND_N / FOOT_M ** 2

describe('a loaded wire', () => {
  // Published worked examples of d = wL²/8T (reference values section 4; C2, C).
  it('sags 3.125 m at 1 kg/m over 500 m under 10,000 kgf', () => {
    expect(parabolaSagM({ spanM: 500, loadNPerM: GRAVITY }, 10_000 * GRAVITY)).toBeCloseTo(3.125, 9)
  })
  it('sags 0.03 ft at 0.0007 lb/ft over 100 ft under 30 lb', () => {
    const load = { spanM: 100 * FOOT_M, loadNPerM: (0.0007 * POUND_N) / FOOT_M }
    expect(parabolaSagM(load, 30 * POUND_N) / FOOT_M).toBeCloseTo(0.03, 2)
  })

  // H = 1000 N, w = 30 N/m, L = 6.096 m (X: reckoned with the closed forms by an independent program).
  it('hangs in parabola and catenary as reckoned elsewhere', () => {
    const load = { spanM: 6.096, loadNPerM: 30 }
    expect(parabolaSagM(load, 1000)).toBeCloseTo(0.1393546, 7)
    expect(catenarySagM(load, 1000)).toBeCloseTo(0.1394517, 7)
    expect(catenaryTensionN(load, 1000)).toBeCloseTo(1004.18355, 5)
  })

  // 140 m of cable on a 120 m span, 3 kg/m (X).
  it('of 140 m over 120 m sags 31.697051 m', () => {
    const load = { spanM: 120, loadNPerM: 3 * GRAVITY }
    expect(catenarySagM(load, catenaryOfLengthN(load, 140))).toBeCloseTo(31.697051, 6)
    expect(() => catenaryOfLengthN(load, 120)).toThrow(RangeError)
  })

  it('is pulled so that its sag and its stretch agree: the length along the sag is that of the stretched wire', () => {
    const wire = { areaM2: wireAreaM2(0.099 * 0.0254), modulusPa: 200e9, initialTensionN: 250 * POUND_N }
    for (const loadNPerM of [5, 30, 102.16, 400]) {
      const load = { spanM: 20 * FOOT_M, loadNPerM }
      const pullN = loadedPullN(load, wire)
      expect(pullN).toBeGreaterThan(wire.initialTensionN)
      // Length along the catenary by its own formula, against the stretch by Hooke's law.
      const c = pullN / loadNPerM
      const alongM = 2 * c * Math.sinh(load.spanM / (2 * c))
      const stretchedM = (load.spanM * (pullN - wire.initialTensionN)) / (wire.areaM2 * wire.modulusPa)
      expect((alongM - load.spanM) / stretchedM).toBeCloseTo(1, 2)
      expect(parabolaTensionN(load, pullN)).toBeGreaterThan(pullN)
    }
  })

  it('slack at first takes its pull from its stretch alone', () => {
    const wire = { areaM2: 1e-6, modulusPa: 200e9, initialTensionN: 0 }
    const pullN = loadedPullN({ spanM: 5, loadNPerM: 50 }, wire)
    expect(pullN ** 3).toBeCloseTo((1e-6 * 200e9 * (50 * 5) ** 2) / 24, 0)
  })
})

describe('a wire by its name', () => {
  // Gauges by Washburn & Moen (C), 12½ by ASTM A641 (M); breaking loads X at 170 ksi, low-carbon 12½ gauge C2.
  it.each([
    ['12½ gauge high tensile', 1309],
    ['wire, 14 gauge high-tensile', 855],
    ['17 ga high tensile', 389],
    ['wire, 12.5 gauge', 460],
    ['wire, 12 1/2 gauge', 460],
  ])('%s breaks at %d lb', (name, pounds) => {
    const { diameterMm, strengthMPa } = wireByName(name)
    expect((strengthMPa * 1e6 * wireAreaM2(diameterMm! / 1000)) / POUND_N).toBeCloseTo(pounds, -0.5)
  })

  it('may be told in millimetres, or not at all', () => {
    expect(wireByName('wire 2.5 mm').diameterMm).toBe(2.5)
    expect(wireByName('wire').diameterMm).toBeNull()
    expect(wireByName('wire, 5 gauge').diameterMm).toBeNull()
  })
})

describe('wind', () => {
  // ASCE 7 example: 115 mph, Kz = Kd = 0.85, Kzt = 1: 24.461 psf by 0.00256·V² (C2); the SI form's 0.613 is rounded.
  it('of 115 mph presses with 24.461 psf', () => {
    const pressurePa = windPressurePa({ speedMPerS: 115 * MPH, exposure: 0.85, topography: 1, direction: 0.85 })
    expect(Math.abs(pressurePa / PSF_PA / 24.461 - 1)).toBeLessThan(0.001)
  })

  // A cantilever under an even load, wl²/2 over πd³/32 (statics, by hand): 400 Pa · 1.2 · 1.8 m · 1.5 m = 1296 N at 0.9 m.
  it('bends a round post of 80 mm by 23.2 MPa', () => {
    const bendingPa = postBendingPa({
      pressurePa: 400,
      coefficient: 1.2,
      heightM: 1.8,
      spacingM: 1.5,
      sectionM3: roundSectionM3(0.08),
    })
    expect(bendingPa / 1e6).toBeCloseTo((1296 * 0.9) / 5.026548e-5 / 1e6, 4)
  })
})
