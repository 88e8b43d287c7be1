import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { problemOf } from '../../../src/draw/problemOf.ts'

const polygon = (...parts: Metres[][]) => problemOf({ type: 'Polygon', parts })

// The cases are those that the simple-features rules call valid or not (OGC 06-103r4, 6.1.11.1; M).
describe('what is wrong with a shape', () => {
  it('is nothing for a plain outline, either way round', () => {
    expect(
      polygon([
        [0, 0],
        [4, 0],
        [4, 3],
      ]),
    ).toBeNull()
    expect(
      polygon([
        [4, 3],
        [4, 0],
        [0, 0],
      ]),
    ).toBeNull()
  })
  it('is told of a bow tie, a fold and a corner on another edge', () => {
    expect(
      polygon([
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4.1],
      ]),
    ).toBe('crosses itself')
    expect(
      polygon([
        [0, 0],
        [4, 0],
        [2, 0],
        [2, 3],
      ]),
    ).toBe('crosses itself')
    expect(
      polygon([
        [0, 0],
        [4, 0],
        [4, 4],
        [2, 0],
        [0, 4],
      ]),
    ).toBe('crosses itself')
  })
  it('is told of a hole that crosses the outline, not of one within', () => {
    const outer: Metres[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]
    expect(
      polygon(outer, [
        [2, 2],
        [2, 4],
        [4, 4],
      ]),
    ).toBeNull()
    expect(
      polygon(outer, [
        [8, 2],
        [12, 2],
        [12, 5],
      ]),
    ).toBe('crosses itself')
  })
  it('is told of too few corners, no area, no length', () => {
    expect(
      polygon([
        [0, 0],
        [4, 0],
      ]),
    ).toBe('too few corners')
    expect(
      polygon([
        [0, 0],
        [4, 0],
        [8, 0],
      ]),
    ).toBe('no area')
    expect(problemOf({ type: 'LineString', parts: [[[1, 1]]] })).toBe('too few corners')
    expect(
      problemOf({
        type: 'LineString',
        parts: [
          [
            [1, 1],
            [1, 1],
          ],
        ],
      }),
    ).toBe('no length')
    expect(problemOf({ type: 'Point', parts: [[]] })).toBe('too few corners')
    expect(problemOf({ type: 'Point', parts: [[[1, 2]]] })).toBeNull()
  })
  it('is told of places too far for the plane, and of none at all', () => {
    expect(problemOf({ type: 'Point', parts: [[[60_000, 0]]] })).toBe('too wide a farm')
    expect(problemOf({ type: 'Point', parts: [[[Number.NaN, 0]]] })).toBe('too wide a farm')
  })
})
