import type { Metres } from '../../geo/plane/lonLat.ts'
import { distanceM } from './measureShape.ts'
import type { Drawn } from './session.ts'
import type { Corners, Shape } from './shape.ts'
import { atLength, type Held, type Segment, snapSquare, snapToEdges } from './snap.ts'

/** What is being drawn: the corners put down, and lengths that were typed. */
export interface Sketch {
  readonly what: Drawn
  readonly corners: Corners
  readonly lengthM: number | null
  readonly widthM: number | null
}

export const newSketch = (what: Drawn): Sketch => ({ what, corners: [], lengthM: null, widthM: null })

/** What lies about the pointer: edges of what stands, and how far 12 px reach. An empty list and no reach let go of everything. */
export interface Surroundings {
  readonly edges: readonly Segment[]
  readonly reachM: number
}

/** True while the third click of a bed is waited for: its width. */
export const drawsWidth = ({ what, corners }: Sketch): boolean => what === 'bed' && corners.length === 2

/** How far a place lies to the left of the way from a to b, in metres. */
const leftOf = ([a, b]: Segment, p: Metres): number =>
  ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / distanceM(a, b)

const aside = ([a, b]: Segment, from: Metres, leftM: number): Metres => {
  const size = distanceM(a, b)
  return [from[0] - ((b[1] - a[1]) / size) * leftM, from[1] + ((b[0] - a[0]) / size) * leftM]
}

/** Where the next corner would come with the pointer at a place: at a typed length, a corner, an edge, or square. */
export function holdPointer(sketch: Sketch, pointer: Metres, { edges, reachM }: Surroundings): Held {
  const { corners, what } = sketch
  const near = snapToEdges(pointer, edges, reachM)
  if (drawsWidth(sketch)) {
    const axis: Segment = [corners[0]!, corners[1]!]
    const left = leftOf(axis, near.at)
    const typed = sketch.widthM
    if (typed !== null) return { at: aside(axis, axis[1], left < 0 ? -typed : typed), snapped: 'typed' }
    return { at: aside(axis, axis[1], left), snapped: near.snapped }
  }
  const last = corners.at(-1)
  if (!last || what === 'tree') return near
  const before = corners.at(-2)
  const own = [before, corners[1]].flatMap((p, i): Metres[] => {
    const from = i === 0 ? last : corners[0]!
    return p ? [[p[0] - from[0], p[1] - from[1]]] : []
  })
  const stood = edges.map(([a, b]): Metres => [b[0] - a[0], b[1] - a[1]])
  const square = near.snapped ? near : snapSquare(last, pointer, [...own, ...stood], reachM)
  if (sketch.lengthM === null) return square
  return { at: atLength(last, square.at, sketch.lengthM), snapped: 'typed' }
}

/** The shape as drawn so far, with the corner that would come next if there is one. */
export function sketchShape(sketch: Sketch, next: Metres | null): Shape {
  const corners = next ? [...sketch.corners, next] : sketch.corners
  switch (sketch.what) {
    case 'tree':
      return { type: 'Point', parts: [corners.slice(-1)] }
    case 'row':
    case 'support':
      return { type: 'LineString', parts: [corners] }
    case 'bed': {
      if (corners.length < 3) return { type: 'Polygon', parts: [corners] }
      const [a, b, c] = corners as [Metres, Metres, Metres]
      return { type: 'Polygon', parts: [[a, b, c, [a[0] + c[0] - b[0], a[1] + c[1] - b[1]]]] }
    }
    default:
      return { type: 'Polygon', parts: [corners] }
  }
}

/** Puts a corner down; a typed length holds for one segment only. */
export const putCorner = (sketch: Sketch, at: Metres): Sketch => ({
  ...sketch,
  corners: [...sketch.corners, at],
  lengthM: null,
})

export const takeCornerBack = (sketch: Sketch): Sketch => ({ ...sketch, corners: sketch.corners.slice(0, -1) })

/** Whether the sketch is done by the number of its corners: a tree's one, a bed's three. */
export const isFull = ({ what, corners }: Sketch): boolean =>
  (what === 'tree' && corners.length === 1) || (what === 'bed' && corners.length === 3)
