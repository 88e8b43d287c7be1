import type { Segment } from './area.ts'

/** From one distance along a strip to another, in metres. */
export type Span = readonly [fromM: number, toM: number]

/** A strip of the turned frame: all ground whose distance to the right lies between two. */
export interface Strip {
  readonly leftM: number
  readonly rightM: number
}

/** How far something is to be kept clear: on all its sides, or only along the strip. */
export interface Clear {
  readonly byM: number
  readonly how: 'round' | 'along'
}

/**
 * The part of a strip, by distance along it, that an edge of the turned frame takes up with the ground to be kept clear
 * about it; null where it takes none. Exact: ground within reach of an edge is convex, so its part of the strip is,
 * and that reaches farthest either at a circle about an end of the edge or where it meets a side of the strip.
 */
export function blockedSpan([a, b]: Segment, { leftM, rightM }: Strip, { byM, how }: Clear): Span | null {
  const reach = how === 'round' ? byM : 0
  if (Math.max(a[1], b[1]) + reach < leftM || Math.min(a[1], b[1]) - reach > rightM) return null
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  const take = (low: number, high: number) => {
    from = Math.min(from, low)
    to = Math.max(to, high)
  }
  for (const [along, right] of [a, b]) if (right >= leftM && right <= rightM) take(along - byM, along + byM)
  for (const side of [leftM, rightM]) {
    const crossing = alongWhere([a, b], side)
    if (crossing !== null) take(crossing - (how === 'along' ? byM : 0), crossing + (how === 'along' ? byM : 0))
    if (how === 'round') for (const span of reachOnLine([a, b], side, byM)) take(...span)
  }
  return from <= to ? [from, to] : null
}

/** Where along the strip an edge crosses a line beside it; null where it does not, or lies in it. */
function alongWhere([a, b]: Segment, side: number): number | null {
  if (a[1] === b[1] || (a[1] - side) * (b[1] - side) > 0) return null
  return a[0] + ((b[0] - a[0]) * (side - a[1])) / (b[1] - a[1])
}

/** Spans of a line beside the strip within reach of an edge: those of the circles about its ends, and of the band along it. */
function reachOnLine([a, b]: Segment, side: number, byM: number): Span[] {
  const spans: Span[] = []
  for (const [along, right] of [a, b]) {
    const half2 = byM * byM - (right - side) ** 2
    if (half2 >= 0) spans.push([along - Math.sqrt(half2), along + Math.sqrt(half2)])
  }
  const lengthM = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (lengthM === 0) return spans
  // The band's corners and the crossings of its four sides with the line: its part of the line is their hull.
  const [nx, ny] = [(-(b[1] - a[1]) / lengthM) * byM, ((b[0] - a[0]) / lengthM) * byM]
  const corners = [
    [a[0] + nx, a[1] + ny],
    [b[0] + nx, b[1] + ny],
    [b[0] - nx, b[1] - ny],
    [a[0] - nx, a[1] - ny],
  ] as const
  const met = corners.flatMap((corner, n) => alongWhere([corner, corners[(n + 1) % 4]!], side) ?? [])
  if (met.length > 0) spans.push([Math.min(...met), Math.max(...met)])
  return spans
}
