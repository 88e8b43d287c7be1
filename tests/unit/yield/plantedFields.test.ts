import { describe, expect, it } from 'vitest'
import { searchFields } from './searchFields.ts'

// Twenty seeded fields; tests/bench/plantedFields.test.ts looks at 200 of each kind and states the rates.
const FIELDS = 20
const KIND = { share: 0.05, stretchM: 5, noise: 0.2 } as const

describe('fields on which 5 % of the ground gives 30 % less', () => {
  it('are found, and what lies there ranks first', () => {
    const { recall, groundFound, causeFirst } = searchFields(FIELDS, { ...KIND, shortfall: 0.3 })
    expect(recall).toBeGreaterThanOrEqual(0.8)
    expect(groundFound).toBeGreaterThanOrEqual(0.5)
    expect(causeFirst).toBeGreaterThanOrEqual(0.75)
  })
})

describe('fields on which chance alone is at work', () => {
  it('show hardly any zone and hardly any link', () => {
    const { falseFields, falseLinks } = searchFields(FIELDS, { ...KIND, shortfall: 0 })
    expect(falseFields).toBeLessThanOrEqual(0.1)
    expect(falseLinks).toBeLessThanOrEqual(0.2)
  })
})
