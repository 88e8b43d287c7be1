import { describe, expect, it } from 'vitest'
import { kgPerUnit } from '../../../geo/model/weigh.ts'

const weights = [
  { unit: 'crate', kg: 8, crop: null },
  { unit: 'crate', kg: 6.5, crop: 'leek' },
  { unit: 'bushel', kg: 24.0403956, crop: 'tomato' },
]

describe('what one unit weighs', () => {
  // Exact by definition: NIST Handbook 44, appendix C (C); an ounce is a sixteenth of a pound.
  it.each([
    ['kg', 1],
    ['g', 0.001],
    ['lb', 0.45359237],
    ['oz', 0.028349523125],
  ])('%s is %d kg whatever the crop', (unit, kg) => {
    expect(kgPerUnit(unit, null, [])).toBe(kg)
    expect(kgPerUnit(unit, 'leek', [{ unit, kg: 99, crop: 'leek' }])).toBe(kg)
  })
  it("takes the crop's own container before that of every crop", () => {
    expect(kgPerUnit('crate', 'leek', weights)).toBe(6.5)
    expect(kgPerUnit('crate', 'tomato', weights)).toBe(8)
    expect(kgPerUnit('crate', null, weights)).toBe(8)
  })
  it('knows no bushel of a crop without one', () => {
    expect(kgPerUnit('bushel', 'tomato', weights)).toBe(24.0403956)
    expect(kgPerUnit('bushel', 'leek', weights)).toBeNull()
    expect(kgPerUnit('bushel', null, weights)).toBeNull()
    expect(kgPerUnit('KG', null, weights)).toBeNull()
  })
})
