import { describe, expect, it } from 'vitest'
import { kindNamed } from '../../../geo/model/kinds.ts'
import { formFields } from '../../../src/sheets/ground/formFields.ts'
import { asTyped, fromTyped, readNumber } from '../../../src/sheets/ground/formValues.ts'

const NONE = { fields: [], beds: [], sides: [], systems: [] }

describe('the forms of what is drawn', () => {
  it('ask for fields that the records have, and for every one that is required', () => {
    for (const kind of ['fields', 'beds', 'rows', 'trees', 'supports', 'structures'] as const) {
      const asked = formFields(kind, NONE)
      const { fields } = kindNamed(kind)
      for (const { name } of asked) expect(Object.keys(fields)).toContain(name)
      const needed = Object.entries(fields).flatMap(([name, field]) => (field.required && name !== 'id' ? [name] : []))
      expect(asked.filter(({ required }) => required).map(({ name }) => name)).toEqual(expect.arrayContaining(needed))
    }
  })

  it('keep lengths in metres, typed in feet where the farm is told in feet', () => {
    const trees = formFields('trees', NONE)
    const typed = { species: 'hazel', height_m: '10', canopy_radius_m: '4,5' }
    // 1 ft = 0.3048 m, exact: NIST Handbook 44, appendix C (C).
    expect(fromTyped(trees, typed, 'us').record.height_m).toBeCloseTo(3.048, 12)
    expect(fromTyped(trees, typed, 'metric').record.canopy_radius_m).toBe(4.5)
    expect(asTyped(trees, { species: 'hazel', height_m: 3.048 }, 'us').height_m).toBe('10')
  })

  it('tell what is wrong at its field, and take what is empty as not known', () => {
    const { record, faults } = fromTyped(
      formFields('trees', NONE),
      { height_m: 'tall', canopy_radius_m: '-1' },
      'metric',
    )
    expect(Object.keys(faults).sort()).toEqual(['canopy_radius_m', 'height_m', 'species'])
    expect(record.planted).toBeNull()
  })

  it('give back what a record holds', () => {
    const beds = formFields('beds', NONE)
    const bed = { name: 'B1', field: 'f1', made: '2024-03-01', retired: null, note: 'wet end' }
    expect(fromTyped(beds, asTyped(beds, bed, 'metric'), 'metric')).toEqual({ record: bed, faults: {} })
  })
})

describe('numbers as they are typed', () => {
  it('have a point or a comma', () => {
    expect(['1.5', '1,5', ' 12 ', '.5', '−2', '1 234'].map(readNumber)).toEqual([1.5, 1.5, 12, 0.5, -2, 1234])
    expect(['', '1.2.3', '1e5', 'NaN', 'Infinity', '0x10', '5 m'].map(readNumber)).toEqual(Array(7).fill(null))
  })
})
