import type { Feature, Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { featureAt } from '../../../src/sheets/yield/featureAt.ts'
import { groundWords } from '../../../src/sheets/yield/groundWords.ts'
import { liesNear } from '../../../src/sheets/yield/liesNear.ts'
import { roundUp } from '../../../src/sheets/yield/rampOf.ts'
import { cellSurface, hotSurface } from '../../../src/sheets/yield/surfaceOf.ts'

const square = (x: number): Polygon => ({
  type: 'Polygon',
  coordinates: [
    [
      [x, 0],
      [x + 1, 0],
      [x + 1, 1],
      [x, 1],
      [x, 0],
    ],
  ],
})
const stretch = (x: number, standing: { z: number; p: number; q: number } | null) => ({
  type: 'Feature' as const,
  geometry: square(x),
  properties: { bed: 'b', index: 1, standing },
})
const view = {
  alpha: 0.05,
  stretches: [
    stretch(0, { z: -2.9, p: 0.004, q: 0.04 }),
    stretch(1, { z: 2.4, p: 0.02, q: 0.2 }),
    stretch(2, null),
    stretch(3, { z: 9, p: 0, q: 0 }),
  ],
}

describe('the surface as it is drawn', () => {
  const squares = [0, 1, 2, 3].map(square)

  it('is about par for an index, and up to its 98th percentile for an amount', () => {
    expect(cellSurface(squares, 'par', Float64Array.of(0.4, 1.2, Number.NaN, 1)).ramp).toEqual({ of: 'par' })
    const amounts = Float64Array.of(0.5, 2, 0, Number.NaN)
    expect(cellSurface(squares, 'amount', amounts)).toEqual({
      ramp: { of: 'amount', most: 0.5 },
      pieces: squares,
      values: amounts,
    })
  })

  it('puts at par what chance would put there, and leaves out what is not known', () => {
    const [cold, chance, unknown, hottest] = hotSurface(squares, view).values
    expect(cold).toBeCloseTo(1 - 2.9 / 6, 12)
    expect([chance, unknown, hottest]).toEqual([1, Number.NaN, 1.5])
  })
})

describe('what the figures are of', () => {
  it('is told by season, or by seasons in a row, and by family', () => {
    expect(groundWords([2026], null)).toBe('2026')
    expect(groundWords([2024, 2025, 2026], { family: 'Solanaceae' })).toBe('2024–2026, Solanaceae')
    expect(groundWords([2022, 2026], null)).toBe('2022, 2026')
  })
})

describe('the end of a ramp', () => {
  it('is one figure that matters, at or above the value', () => {
    expect([3.4, 0.62, 4, 97, 0.001].map(roundUp)).toEqual([4, 0.7, 4, 100, 0.001])
  })
})

describe('what is under the pointer', () => {
  it('is the feature that holds the place', () => {
    const features: Feature<Polygon, null>[] = [0, 1, 5].map((x) => ({
      type: 'Feature',
      geometry: square(x),
      properties: null,
    }))
    expect(featureAt(features, [1.5, 0.5])).toBe(1)
    expect(featureAt(features, [5.5, 0.5])).toBe(2)
    expect(featureAt(features, [3, 0.5])).toBeNull()
  })
})

describe('what lies near a zone', () => {
  it('is told with its distance', () => {
    const near = liesNear(
      {
        tree: { id: 't', species: 'black walnut', name: 'Old walnut', trunkM: 9.31, canopyM: -1 },
        fieldEdgeM: 2,
        supports: [{ system: 's', name: 'String weave', lengthM: 31.4 }],
        dressings: [
          { bed: 'b1', on: '2026-03-01', material: 'compost', kgPerM2: 3 },
          { bed: 'b2', on: '2026-03-01', material: 'compost', kgPerM2: 3 },
        ],
      },
      new Map([['b1', 'W1']]),
      'metric',
    )
    expect(near[0]).toBe('black walnut, Old walnut: its canopy is over the zone, its trunk stands 9.31 m away')
    expect(near[1]).toBe('the field’s edge: 2.00 m away')
    expect(near[2]).toBe('String weave: 31 m along it')
    expect(near[3]).toMatch(/^compost, 3\.0 kg\/m², .*2026: W1, b2$/)
  })
})
