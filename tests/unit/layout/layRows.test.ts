import { describe, expect, it } from 'vitest'
import type { Area } from '../../../geo/layout/area.ts'
import { layRows, type RowPlan } from '../../../geo/layout/layRows.ts'
import { longestEdge } from '../../../geo/layout/longestEdge.ts'
import { freeStart, namesByPattern, takenOf } from '../../../geo/layout/names.ts'

/** 20 m long by 1.2 m, running east, its north edge at 1.2. */
const BED: Area = [
  [
    [0, 0],
    [20, 0],
    [20, 1.2],
    [0, 1.2],
  ],
]
const norths = (plan: RowPlan) => layRows(BED, plan).map(({ line: [[, north]] }) => Number(north.toFixed(6)))

// All by hand.
describe('a bed filled with rows', () => {
  it('has them evenly between its edge distances, from its left', () => {
    expect(norths({ by: { count: 3 }, edgeM: 0.15, endM: 0 })).toEqual([1.05, 0.6, 0.15])
    expect(norths({ by: { count: 1 }, edgeM: 0.15, endM: 0 })).toEqual([0.6])
  })
  it('has as many at a spacing as go in, what is left over at both edges', () => {
    // 1.2 − 0.3 = 0.9 m holds 3 gaps of 0.25; 0.15 is left over.
    expect(norths({ by: { spacingM: 0.25 }, edgeM: 0.15, endM: 0 })).toEqual([0.975, 0.725, 0.475, 0.225])
    expect(norths({ by: { spacingM: 0.3 }, edgeM: 0.15, endM: 0 })).toHaveLength(4)
  })
  it('has them at the sides asked for, and says which', () => {
    const rows = layRows(BED, { by: { sides: ['right', 'left'] }, edgeM: 0.2, endM: 0.5 })
    expect(rows.map(({ side }) => side)).toEqual(['left', 'right'])
    for (const { line, lengthM } of rows) {
      expect(lengthM).toBeCloseTo(19, 9)
      expect(line[0][0]).toBeCloseTo(0.5, 9)
      expect(line[1][0]).toBeCloseTo(19.5, 9)
    }
    expect(rows[0]!.line[0][1]).toBeCloseTo(1, 9)
  })
  it('has none where the edges take all of it, or where nobody can mean so many', () => {
    expect(norths({ by: { count: 2 }, edgeM: 0.61, endM: 0 })).toEqual([])
    expect(norths({ by: { spacingM: 0.001 }, edgeM: 0.1, endM: 0 })).toEqual([])
    expect(norths({ by: { count: 2 }, edgeM: 0.1, endM: 10 })).toEqual([])
  })
  it('cuts each to the bed where its end is slanting', () => {
    const slanting: Area = [
      [
        [0, 0],
        [20, 0],
        [18, 2],
        [0, 2],
      ],
    ]
    const rows = layRows(slanting, { by: { count: 3 }, edgeM: 0.5, endM: 0 })
    expect(rows.map(({ lengthM }) => Number(lengthM.toFixed(6)))).toEqual([18.5, 19, 19.5])
  })
  it('lies on edges that are asked for without a distance', () => {
    expect(norths({ by: { sides: ['left', 'right'] }, edgeM: 0, endM: 0 })).toEqual([1.199, 0.001])
  })
})

describe('the longest side of a field', () => {
  it('goes on over corners where it is straight', () => {
    const field: Area = [
      [
        [0, 0],
        [30, 0.1],
        [60, 0],
        [60, 50],
        [0, 50],
      ],
    ]
    expect(longestEdge(field)!.lengthM).toBeCloseTo(60, 9)
    expect(longestEdge(field)!.bearingDeg).toBeCloseTo(90, 9)
  })
})

describe('names that count', () => {
  it('are padded, and told where they are taken', () => {
    const names = namesByPattern({ prefix: 'B', start: 8, digits: 2 }, 4)
    expect(names).toEqual(['B08', 'B09', 'B10', 'B11'])
    expect(takenOf(names, ['b10', 'B7', 'C08'])).toEqual(['B10'])
    expect(freeStart({ prefix: 'B', start: 8, digits: 2 }, 4, ['b10', 'B14'])).toBe(15)
    expect(freeStart({ prefix: 'B', start: 8, digits: 2 }, 2, ['b10'])).toBe(8)
  })
})
