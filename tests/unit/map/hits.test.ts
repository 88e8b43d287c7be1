import { describe, expect, it } from 'vitest'
import type { ThingKind } from '../../../src/map/farmMap.ts'
import { type Candidate, chooseHit, distanceTo, type Pixel } from '../../../src/map/hits.ts'

const seen = (kind: ThingKind, distancePx: number, area = kind === 'beds' || kind === 'fields'): Candidate => ({
  thing: { kind, id: `${kind} at ${distancePx}` },
  distancePx,
  area,
})
const project = (p: readonly number[]): Pixel => [p[0]!, p[1]!]

describe('what a tap means', () => {
  const field = seen('fields', 0)
  const bed = seen('beds', 0)
  it('is the bed under it rather than the field, or the next bed', () => {
    expect(chooseHit([field, seen('beds', 2), bed], false)).toBe(bed.thing)
  })
  it('is the support right under it rather than the bed', () => {
    const run = seen('supports', 3)
    expect(chooseHit([field, bed, run], false)).toBe(run.thing)
    expect(chooseHit([field, bed, seen('supports', 12)], true)).toBe(bed.thing)
  })
  it('is the support rather than the row or planting that it holds', () => {
    const run = seen('supports', 2)
    expect(chooseHit([seen('rows', 1.5), seen('plantings', 1.5), run, bed], false)).toBe(run.thing)
  })
  it('reaches 22 px for a finger on open ground, which makes a target of 44', () => {
    const tree = seen('trees', 21.9)
    expect(chooseHit([field, tree], true)).toBe(tree.thing)
    expect(chooseHit([field, seen('trees', 22.1)], true)).toBe(field.thing)
    expect(chooseHit([field, tree], false)).toBe(field.thing)
  })
  it('is nothing on bare paper', () => {
    expect(chooseHit([], true)).toBeNull()
    expect(chooseHit([seen('trees', 30)], true)).toBeNull()
  })
})

describe('the distance to a shape', () => {
  it('is 0 within an area, but not in its hole', () => {
    const ring = (a: number, b: number) => [
      [a, a],
      [b, a],
      [b, b],
      [a, b],
      [a, a],
    ]
    const shape = { type: 'Polygon' as const, coordinates: [ring(0, 100), ring(40, 60)] }
    expect(distanceTo(shape, [10, 10], project)).toEqual({ distancePx: 0, area: true })
    expect(distanceTo(shape, [50, 45], project)).toEqual({ distancePx: 5, area: true })
    expect(distanceTo(shape, [103, 104], project).distancePx).toBe(5)
  })
  it('is square to a line, or to its end', () => {
    const line = {
      type: 'LineString' as const,
      coordinates: [
        [0, 0],
        [10, 0],
      ],
    }
    expect(distanceTo(line, [5, 3], project)).toEqual({ distancePx: 3, area: false })
    expect(distanceTo(line, [13, 4], project).distancePx).toBe(5)
  })
})
