import type { Geometry, Position } from 'geojson'
import type { At, Box, Step } from '../marks.ts'

/** A geometry on a page: its corners as lines (rings closed), each a list of places. */
export interface Shape {
  readonly kind: 'Point' | 'LineString' | 'Polygon'
  readonly lines: readonly (readonly At[])[]
}

/** A geometry as it lies on the page; a collection's parts each by themselves. */
export function shapesOf(geometry: Geometry, place: (at: Position) => At): readonly Shape[] {
  const line = (positions: Position[]) => positions.map(place)
  switch (geometry.type) {
    case 'Point':
      return [{ kind: 'Point', lines: [[place(geometry.coordinates)]] }]
    case 'MultiPoint':
      return [{ kind: 'Point', lines: geometry.coordinates.map((p) => [place(p)]) }]
    case 'LineString':
      return [{ kind: 'LineString', lines: [line(geometry.coordinates)] }]
    case 'MultiLineString':
      return [{ kind: 'LineString', lines: geometry.coordinates.map(line) }]
    case 'Polygon':
      return [{ kind: 'Polygon', lines: geometry.coordinates.map(line) }]
    case 'MultiPolygon':
      return [{ kind: 'Polygon', lines: geometry.coordinates.flatMap((rings) => rings.map(line)) }]
    case 'GeometryCollection':
      return geometry.geometries.flatMap((part) => shapesOf(part, place))
  }
}

export const stepsOf = ({ kind, lines }: Shape): Step[] =>
  lines.flatMap((line): Step[] => [
    ...line.map(([x, y], i): Step => [i === 0 ? 'M' : 'L', x, y]),
    ...(kind === 'Polygon' ? [['Z'] as const] : []),
  ])

/** Whether any of a shape can show in a box, with `spareMm` about it for the width of lines. */
export function touches({ lines }: Shape, box: Box, spareMm: number): boolean {
  let [left, right, top, foot] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const line of lines)
    for (const [x, y] of line) {
      left = Math.min(left, x)
      right = Math.max(right, x)
      top = Math.min(top, y)
      foot = Math.max(foot, y)
    }
  return (
    right >= box.xMm - spareMm &&
    left <= box.xMm + box.wideMm + spareMm &&
    foot >= box.yMm - spareMm &&
    top <= box.yMm + box.highMm + spareMm
  )
}

/** A circle as four cubics; 0.5523 is the handle's length that keeps it round to 3 in 10,000. */
export function circleSteps([x, y]: At, radiusMm: number): Step[] {
  const [r, h] = [radiusMm, radiusMm * 0.5523]
  return [
    ['M', x + r, y],
    ['C', x + r, y + h, x + h, y + r, x, y + r],
    ['C', x - h, y + r, x - r, y + h, x - r, y],
    ['C', x - r, y - h, x - h, y - r, x, y - r],
    ['C', x + h, y - r, x + r, y - h, x + r, y],
    ['Z'],
  ]
}

/** A line moved sideways, to the right of its way for a positive distance; corners mitred, sharp ones cut short. */
export function beside(line: readonly At[], byMm: number, closed: boolean): readonly At[] {
  if (byMm === 0) return line
  const places = line.filter((p, i) => i === 0 || Math.hypot(p[0] - line[i - 1]![0], p[1] - line[i - 1]![1]) > 1e-9)
  if (places.length < 2) return line
  const count = places.length
  const normal = (from: At, to: At): At => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    return [-(to[1] - from[1]) / length, (to[0] - from[0]) / length]
  }
  const before = (i: number) => (i > 0 ? normal(places[i - 1]!, places[i]!) : null)
  const after = (i: number) => (i < count - 1 ? normal(places[i]!, places[i + 1]!) : null)
  return places.map(([x, y], i): At => {
    const a = before(i) ?? (closed ? before(count - 1) : null) ?? after(i)!
    const b = after(i) ?? (closed ? after(0) : null) ?? a
    const [sx, sy] = [a[0] + b[0], a[1] + b[1]]
    const size = sx * sx + sy * sy
    const k = size < 0.2 ? 1 : (2 * byMm) / size
    return size < 0.2 ? [x + a[0] * byMm, y + a[1] * byMm] : [x + sx * k, y + sy * k]
  })
}
