import type { Metres } from '../../geo/plane/lonLat.ts'
import { distanceM } from './measureShape.ts'
import { toArea } from './ops/toArea.ts'
import type { Drawn, TypedSide } from './session.ts'
import type { Corners, Shape } from './shape.ts'
import { atLength, type Held, hold, type Segment, type Surroundings } from './snap.ts'

/** How each thing is drawn. A rectangle is drawn by one side and then its width: three clicks. */
export const FORM: Readonly<Record<Drawn, 'point' | 'line' | 'area' | 'rectangle'>> = {
  field: 'area',
  'field rectangle': 'rectangle',
  bed: 'rectangle',
  'bed outline': 'area',
  row: 'line',
  support: 'line',
  tree: 'point',
  'structure point': 'point',
  'structure line': 'line',
  'structure area': 'area',
  observation: 'point',
  hole: 'area',
  cut: 'line',
  measure: 'line',
}

/** What is being drawn: the corners put down, and what was typed. */
export interface Sketch extends TypedSide {
  readonly what: Drawn
  readonly corners: Corners
}

const UNTYPED: TypedSide = { lengthM: null, widthM: null, bearingDeg: null, areaM2: null }
export const newSketch = (what: Drawn): Sketch => ({ what, corners: [], ...UNTYPED })

/** True while the third click of a rectangle is waited for: its width. */
export const drawsWidth = ({ what, corners }: Sketch): boolean => FORM[what] === 'rectangle' && corners.length === 2

/** How far a place lies to the left of the way from a to b, in metres. */
const leftOf = ([a, b]: Segment, p: Metres): number =>
  ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / distanceM(a, b)

const aside = ([a, b]: Segment, from: Metres, leftM: number): Metres => {
  const size = distanceM(a, b)
  return [from[0] - ((b[1] - a[1]) / size) * leftM, from[1] + ((b[0] - a[0]) / size) * leftM]
}

const typed = (at: Metres): Held => ({ at, snapped: 'typed', guides: [] })

/** Where the next corner would come with the pointer at a place: at what was typed, or held to what stands about. */
export function holdPointer(sketch: Sketch, pointer: Metres, about: Surroundings): Held {
  const { corners, what } = sketch
  if (drawsWidth(sketch)) {
    const axis: Segment = [corners[0]!, corners[1]!]
    const near = hold(pointer, about)
    const left = leftOf(axis, near.at)
    const width = sketch.widthM ?? (sketch.areaM2 === null ? null : sketch.areaM2 / distanceM(...axis))
    if (width !== null) return typed(aside(axis, axis[1], left < 0 ? -width : width))
    return { ...near, at: aside(axis, axis[1], left) }
  }
  const last = corners.at(-1)
  if (!last || FORM[what] === 'point') return hold(pointer, about)
  const whole = wholeTyped(sketch)
  if (whole) return typed(whole)
  const before = corners.at(-2)
  const second = corners[1]
  const own: Segment[] = [
    ...(before ? [[before, last] as const] : []),
    ...(second ? [[corners[0]!, second] as const] : []),
  ]
  const held = hold(pointer, about, { from: last, own })
  if (sketch.bearingDeg !== null) {
    const [ux, uy] = wayOf(sketch.bearingDeg)
    const along = (held.at[0] - last[0]) * ux + (held.at[1] - last[1]) * uy
    return typed([last[0] + ux * along, last[1] + uy * along])
  }
  if (sketch.lengthM !== null) return typed(atLength(last, held.at, sketch.lengthM))
  if (sketch.areaM2 !== null && FORM[what] === 'area') {
    const at = toArea(corners, held.at, sketch.areaM2)
    if (at) return typed(at)
  }
  return held
}

const wayOf = (bearingDeg: number): Metres => {
  const a = (bearingDeg * Math.PI) / 180
  return [Math.sin(a), Math.cos(a)]
}

/** Where what was typed puts the next corner by itself: a bearing with a length or with the area of the ring; null where it takes the pointer too. */
export function wholeTyped(sketch: Sketch): Metres | null {
  const last = sketch.corners.at(-1)
  if (!last || sketch.bearingDeg === null || drawsWidth(sketch)) return null
  const [ux, uy] = wayOf(sketch.bearingDeg)
  if (sketch.lengthM !== null) return [last[0] + ux * sketch.lengthM, last[1] + uy * sketch.lengthM]
  if (sketch.areaM2 === null || FORM[sketch.what] !== 'area') return null
  return toArea(sketch.corners, [last[0] + ux, last[1] + uy], sketch.areaM2)
}

/** Where the third corner of a rectangle comes when its width is typed and no pointer says on which side: on the left. */
export function typedWidthPlace(sketch: Sketch): Metres | null {
  const [a, b] = sketch.corners
  if (!drawsWidth(sketch) || !a || !b || (sketch.widthM === null && sketch.areaM2 === null)) return null
  return holdPointer(sketch, aside([a, b], b, 1), { edges: [], far: [], reachM: 0, snaps: NO_SNAPS }).at
}
const NO_SNAPS = { corner: false, edge: false, square: false, parallel: false, extension: false }

/** The shape as drawn so far, with the corner that would come next if there is one. */
export function sketchShape(sketch: Sketch, next: Metres | null): Shape {
  const corners = next ? [...sketch.corners, next] : sketch.corners
  switch (FORM[sketch.what]) {
    case 'point':
      return { type: 'Point', parts: [corners.slice(-1)] }
    case 'line':
      return { type: 'LineString', parts: [corners] }
    case 'rectangle': {
      if (corners.length < 3) return { type: 'Polygon', parts: [corners] }
      const [a, b, c] = corners as [Metres, Metres, Metres]
      return { type: 'Polygon', parts: [[a, b, c, [a[0] + c[0] - b[0], a[1] + c[1] - b[1]]]] }
    }
    case 'area':
      return { type: 'Polygon', parts: [corners] }
  }
}

/** Puts a corner down. What was typed holds for one side only; a rectangle's width and area for the whole of it. */
export const putCorner = (sketch: Sketch, at: Metres): Sketch => ({
  ...sketch,
  ...(FORM[sketch.what] === 'rectangle' ? { lengthM: null, bearingDeg: null } : UNTYPED),
  corners: [...sketch.corners, at],
})

export const takeCornerBack = (sketch: Sketch): Sketch => ({ ...sketch, corners: sketch.corners.slice(0, -1) })

/** Whether the sketch is done by the number of its corners: a point's one, a rectangle's three. */
export const isFull = ({ what, corners }: Sketch): boolean =>
  (FORM[what] === 'point' && corners.length === 1) || (FORM[what] === 'rectangle' && corners.length === 3)
