import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { measureShape } from '../../../src/draw/measureShape.ts'
import { cornerBefore, dropCorner, handlesOf, moveHandle } from '../../../src/draw/reshape.ts'
import type { Shape } from '../../../src/draw/shape.ts'
import {
  drawsWidth,
  holdPointer,
  isFull,
  newSketch,
  putCorner,
  type Sketch,
  sketchShape,
  takeCornerBack,
  wholeTyped,
} from '../../../src/draw/sketch.ts'
import { ALL_SNAPS, type Segment, type Surroundings } from '../../../src/draw/snap.ts'

const OPEN: Surroundings = { edges: [], far: [], reachM: 0.5, snaps: ALL_SNAPS }
const drawn = (what: Parameters<typeof newSketch>[0], ...corners: Metres[]): Sketch =>
  corners.reduce<Sketch>((sketch, at) => putCorner(sketch, at), newSketch(what))

describe('a bed drawn by its long axis and its width', () => {
  const axis = drawn('bed', [0, 0], [20, 0])
  it('takes the third click square off the axis, on the side of the pointer', () => {
    expect(drawsWidth(axis)).toBe(true)
    expect(holdPointer(axis, [7, 1.2], OPEN).at).toEqual([20, 1.2])
    expect(holdPointer(axis, [7, -1.2], OPEN).at).toEqual([20, -1.2])
  })
  it('is a true rectangle', () => {
    const sketch = putCorner(axis, holdPointer(axis, [3, 1.5], OPEN).at)
    expect(isFull(sketch)).toBe(true)
    const told = measureShape(sketchShape(sketch, null), true)
    expect(told.areaM2).toBeCloseTo(30, 12)
    expect(told.lengthM).toBeCloseTo(20, 12)
    expect(told.widthM).toBeCloseTo(1.5, 12)
    expect(told.bearingDeg).toBeCloseTo(90, 9)
  })
  it('takes typed lengths exactly, and the length for one side only', () => {
    const typed = { ...drawn('bed', [3, 4]), lengthM: 24.5, widthM: 0.75 }
    const end = holdPointer(typed, [9, 12], OPEN)
    expect(end.snapped).toBe('typed')
    const second = putCorner(typed, end.at)
    expect(second.lengthM).toBeNull()
    const third = putCorner(second, holdPointer(second, [0, 30], OPEN).at)
    const told = measureShape(sketchShape(third, null), true)
    expect(told.lengthM).toBeCloseTo(24.5, 12)
    expect(told.widthM).toBeCloseTo(0.75, 12)
  })
  it('snaps its width to an edge that stands', () => {
    const edge: Segment = [
      [0, 2],
      [20, 2],
    ]
    expect(holdPointer(axis, [7, 1.9], { ...OPEN, edges: [edge] })).toMatchObject({ at: [20, 2], snapped: 'edge' })
  })
})

describe('a field drawn corner by corner', () => {
  it('holds square to the side before', () => {
    const sketch = drawn('field', [0, 0], [10, 0])
    const held = holdPointer(sketch, [10.2, 6], OPEN)
    expect(held.snapped).toBe('square')
    expect(held.at[0]).toBeCloseTo(10, 12)
  })
  it('takes a typed bearing and length without the pointer, and a typed area toward it', () => {
    const sketch = { ...drawn('field', [2, 3]), bearingDeg: 90, lengthM: 12 }
    const east = wholeTyped(sketch)!
    expect(east[0]).toBeCloseTo(14, 12)
    expect(east[1]).toBeCloseTo(3, 12)
    const third = { ...drawn('field', [0, 0], [10, 0]), areaM2: 40 }
    expect(holdPointer(third, [10, 3], OPEN)).toMatchObject({ at: [10, 8], snapped: 'typed' })
    const along = { ...drawn('row', [0, 0]), bearingDeg: 45 }
    const held = holdPointer(along, [9, 3], OPEN).at
    expect(held[0]).toBeCloseTo(6, 12)
    expect(held[1]).toBeCloseTo(6, 12)
    const wide = { ...drawn('field rectangle', [0, 0], [20, 0]), areaM2: 100 }
    expect(holdPointer(wide, [4, -1], OPEN).at).toEqual([20, -5])
  })
  it('takes corners back', () => {
    expect(takeCornerBack(drawn('field', [0, 0], [10, 0])).corners).toEqual([[0, 0]])
  })
})

describe('a shape that is edited', () => {
  const square: Shape = {
    type: 'Polygon',
    parts: [
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ],
    ],
  }
  it('has a handle on each corner, between them, and one for the whole', () => {
    const kinds = handlesOf(square).map(([handle]) => handle.at)
    expect(kinds.filter((at) => at === 'corner')).toHaveLength(4)
    expect(kinds.filter((at) => at === 'middle')).toHaveLength(4)
    expect(kinds.filter((at) => at === 'whole')).toHaveLength(1)
    expect(
      handlesOf({
        type: 'LineString',
        parts: [
          [
            [0, 0],
            [1, 1],
          ],
        ],
      }).filter(([h]) => h.at === 'middle'),
    ).toHaveLength(1)
    expect(handlesOf({ type: 'Point', parts: [[[0, 0]]] })).toHaveLength(1)
  })
  it('moves a corner, makes one of a middle, moves as a whole', () => {
    expect(moveHandle(square, { at: 'corner', part: 0, corner: 2 }, [12, 12]).shape.parts[0]![2]).toEqual([12, 12])
    const grown = moveHandle(square, { at: 'middle', part: 0, after: 3 }, [-2, 5])
    expect(grown.shape.parts[0]).toHaveLength(5)
    expect(grown.shape.parts[0]![4]).toEqual([-2, 5])
    expect(grown.handle).toEqual({ at: 'corner', part: 0, corner: 4 })
    const [, from] = handlesOf(square).find(([h]) => h.at === 'whole')!
    const moved = moveHandle(square, { at: 'whole' }, [from[0] + 3, from[1] - 1]).shape.parts[0]!
    expect(moved).toEqual([
      [3, -1],
      [13, -1],
      [13, 9],
      [3, 9],
    ])
  })
  it('loses a corner, but never so many that it is none', () => {
    const triangle = dropCorner(square, { at: 'corner', part: 0, corner: 1 })
    expect(triangle.parts[0]).toEqual([
      [0, 0],
      [10, 10],
      [0, 10],
    ])
    expect(dropCorner(triangle, { at: 'corner', part: 0, corner: 0 })).toBe(triangle)
  })
  it('knows the corner before, round the ring but not round a line', () => {
    expect(cornerBefore(square, { at: 'corner', part: 0, corner: 0 })).toEqual([0, 10])
    expect(
      cornerBefore(
        {
          type: 'LineString',
          parts: [
            [
              [0, 0],
              [1, 1],
            ],
          ],
        },
        { at: 'corner', part: 0, corner: 0 },
      ),
    ).toBeNull()
  })
})
