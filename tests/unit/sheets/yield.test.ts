import type { Feature, Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { featureAt } from '../../../src/sheets/yield/featureAt.ts'
import { liesNear } from '../../../src/sheets/yield/liesNear.ts'
import { roundUp } from '../../../src/sheets/yield/rampOf.ts'
import { surfaceOf } from '../../../src/sheets/yield/surfaceOf.ts'

const cell = (x: number, kgPerM2: number, index: number | null) => ({
  type: 'Feature' as const,
  geometry: square(x),
  properties: { bed: 'b', areaM2: 1, kg: kgPerM2, kgPerM2, index },
})
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
  cells: [cell(0, 0.5, 0.4), cell(1, 2, 1.2), cell(2, 0, null)],
  stretches: [
    stretch(0, { z: -2.9, p: 0.004, q: 0.04 }),
    stretch(1, { z: 2.4, p: 0.02, q: 0.2 }),
    stretch(2, null),
    stretch(3, { z: 9, p: 0, q: 0 }),
  ],
}

describe('the surface as it is drawn', () => {
  const values = (shown: 'index' | 'density' | 'hot') =>
    surfaceOf(view, shown).pieces.features.map(({ properties }) => properties.value)

  it('is the index, or the density, of each cell', () => {
    expect(values('index')).toEqual([0.4, 1.2, null])
    expect(values('density')).toEqual([0.5, 2, 0])
    expect(surfaceOf(view, 'index').ramp).toEqual({ of: 'par' })
    expect(surfaceOf(view, 'density').ramp).toEqual({ of: 'amount', most: 0.5 })
  })

  it('puts at par what chance would put there, and leaves out what is not known', () => {
    const [cold, chance, unknown, hottest] = values('hot')
    expect(cold).toBeCloseTo(1 - 2.9 / 6, 12)
    expect([chance, unknown, hottest]).toEqual([1, null, 1.5])
  })
})

describe('the end of a ramp', () => {
  it('is one figure that matters, at or above the value', () => {
    expect([3.4, 0.62, 4, 97, 0.001].map(roundUp)).toEqual([4, 0.7, 4, 100, 0.001])
  })
})

describe('what is under the pointer', () => {
  it('is the feature that holds the place', () => {
    const features: Feature<Polygon, string>[] = [0, 1, 5].map((x) => ({
      type: 'Feature',
      geometry: square(x),
      properties: `from ${x}`,
    }))
    expect(featureAt(features, [1.5, 0.5])).toBe('from 1')
    expect(featureAt(features, [5.5, 0.5])).toBe('from 5')
    expect(featureAt(features, [3, 0.5])).toBeUndefined()
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
