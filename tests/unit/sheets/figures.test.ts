import { describe, expect, it } from 'vitest'
import {
  alongFigure,
  areaFigure,
  densityFigure,
  landFigure,
  lengthFigure,
  massFigure,
  showNumber,
  showShare,
  told,
} from '../../../src/sheets/show/figures.ts'

// International foot, avoirdupois pound and acre are exact: NIST Handbook 44, appendix C (C).
const FOOT_M = 0.3048
const POUND_KG = 0.45359237
const ACRE_M2 = 4046.8564224

describe('figures in US customary units', () => {
  it('are those of NIST Handbook 44', () => {
    expect(told(lengthFigure(100 * FOOT_M, 'us'))).toBe('100.0 ft')
    expect(told(massFigure(26_001 * POUND_KG, 'us'))).toBe('26,001 lb')
    expect(told(landFigure(ACRE_M2, 'us'))).toBe('1.00 acres')
    // An acre is 43,560 square feet (the same table).
    expect(told(areaFigure(ACRE_M2, 'us'))).toBe('43,560 ft²')
    expect(told(densityFigure(POUND_KG / FOOT_M ** 2, 'us'))).toBe('1.00 lb/ft²')
    expect(told(alongFigure(POUND_KG / FOOT_M, 'us'))).toBe('1.00 lb/ft')
  })

  it('tell small ground in square feet, land in acres', () => {
    expect(landFigure(ACRE_M2 / 4 - 1, 'us').unit).toBe('ft²')
    expect(landFigure(ACRE_M2 / 4, 'us').unit).toBe('acres')
  })
})

describe('figures in metric units', () => {
  it('tell metres to the centimetre, and land in hectares from one hectare on', () => {
    expect(told(lengthFigure(12.345, 'metric'))).toBe('12.35 m')
    expect(told(lengthFigure(0, 'metric'))).toBe('0 m')
    expect(told(landFigure(9_999, 'metric'))).toBe('9,999 m²')
    expect(told(landFigure(12_345, 'metric'))).toBe('1.23 ha')
  })
})

describe('numbers', () => {
  it('have a true minus and no minus before nothing', () => {
    expect(showNumber(-38, 0)).toBe('−38')
    expect(showNumber(-0.001, 1)).toBe('0.0')
  })

  it('tell small shares closer', () => {
    expect(showShare(0.454)).toBe('45%')
    expect(showShare(0.0081)).toBe('0.8%')
  })
})
