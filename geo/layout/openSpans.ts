import type { Metres } from '../plane/lonLat.ts'
import { type Area, edgesOf, isIn, type Segment } from './area.ts'
import { blockedSpan, type Clear, type Span, type Strip } from './blockedSpan.ts'

/** Something that stands in the way: its ground, its lines, or points, kept clear on all sides by a distance. */
export interface Obstacle {
  readonly area: Area
  /** Lines as edges; a point is an edge from itself to itself. */
  readonly edges: readonly Segment[]
  readonly clearM: number
}

/** Ground that beds may take, in a turned frame. */
export interface OpenGround {
  readonly field: Area
  readonly headland: Clear
  readonly obstacles: readonly Obstacle[]
}

/** What a strip is looked at narrower by on either side, so that an edge along its side does not block it. */
const TOUCH_M = 1e-6

/**
 * The spans of a strip, by distance along it, over whose whole width the ground is the field's, clear of its edge and of
 * every obstacle; in order and apart. True to a micrometre.
 */
export function openSpans({ field, headland, obstacles }: OpenGround, strip: Strip): Span[] {
  const inner: Strip =
    strip.rightM - strip.leftM > 2 * TOUCH_M
      ? { leftM: strip.leftM + TOUCH_M, rightM: strip.rightM - TOUCH_M }
      : { leftM: strip.leftM, rightM: strip.rightM }
  const blocked: Span[] = []
  const block = (edges: readonly Segment[], clear: Clear) => {
    for (const edge of edges) {
      const span = blockedSpan(edge, inner, clear)
      if (span) blocked.push(span)
    }
  }
  block(edgesOf(field), headland)
  for (const { area, edges, clearM } of obstacles) {
    block(edgesOf(area), { byM: clearM, how: 'round' })
    block(edges, { byM: clearM, how: 'round' })
  }
  const middle = (strip.leftM + strip.rightM) / 2
  return gapsBetween(blocked).filter(([from, to]) => {
    const at: Metres = [(from + to) / 2, middle]
    return isIn(field, at) && !obstacles.some(({ area }) => isIn(area, at))
  })
}

/** What lies between spans that may overlap; what lies before the first and after the last is nobody's. */
function gapsBetween(spans: readonly Span[]): Span[] {
  const sorted = [...spans].sort((a, b) => a[0] - b[0])
  const gaps: Span[] = []
  let reached = Number.POSITIVE_INFINITY
  for (const [from, to] of sorted) {
    if (from > reached) gaps.push([reached, from])
    reached = reached === Number.POSITIVE_INFINITY ? to : Math.max(reached, to)
  }
  return gaps
}
