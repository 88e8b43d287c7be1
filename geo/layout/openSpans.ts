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

/** Ground that beds may take, in a turned frame, made ready to be asked strip by strip. */
export interface OpenGround {
  readonly field: Area
  readonly headland: Clear
  /** Whatever blocks a strip, by where it begins to the right. */
  readonly blocks: readonly Block[]
  readonly solid: readonly Area[]
}
interface Block {
  readonly edge: Segment
  readonly clear: Clear
  readonly leftM: number
  readonly rightM: number
}

/** What a strip is looked at narrower by on either side, so that an edge along its side does not block it. */
const TOUCH_M = 1e-6

/** Makes ground ready. */
export function openGround(field: Area, headland: Clear, obstacles: readonly Obstacle[]): OpenGround {
  const blockOf = (edge: Segment, clear: Clear): Block => {
    const reach = clear.how === 'round' ? clear.byM : 0
    return {
      edge,
      clear,
      leftM: Math.min(edge[0][1], edge[1][1]) - reach,
      rightM: Math.max(edge[0][1], edge[1][1]) + reach,
    }
  }
  const blocks = [
    ...edgesOf(field).map((edge) => blockOf(edge, headland)),
    ...obstacles.flatMap(({ area, edges, clearM }) =>
      [...edgesOf(area), ...edges].map((edge) => blockOf(edge, { byM: clearM, how: 'round' })),
    ),
  ]
  return {
    field,
    headland,
    blocks: blocks.sort((a, b) => a.leftM - b.leftM),
    solid: obstacles.flatMap(({ area }) => (area.length > 0 ? [area] : [])),
  }
}

/**
 * The spans of a strip, by distance along it, over whose whole width the ground is the field's, clear of its edge and of
 * every obstacle; in order and apart. True to a micrometre.
 */
export function openSpans({ field, blocks, solid }: OpenGround, strip: Strip): Span[] {
  const inner: Strip =
    strip.rightM - strip.leftM > 2 * TOUCH_M ? { leftM: strip.leftM + TOUCH_M, rightM: strip.rightM - TOUCH_M } : strip
  const blocked: Span[] = []
  for (const { edge, clear, leftM, rightM } of blocks) {
    if (leftM > inner.rightM) break
    if (rightM < inner.leftM) continue
    const span = blockedSpan(edge, inner, clear)
    if (span) blocked.push(span)
  }
  const middle = (strip.leftM + strip.rightM) / 2
  return gapsBetween(blocked).filter(([from, to]) => {
    const at: Metres = [(from + to) / 2, middle]
    return isIn(field, at) && !solid.some((area) => isIn(area, at))
  })
}

/** What lies between spans that may overlap; what lies before the first and after the last is nobody's. */
function gapsBetween(spans: Span[]): Span[] {
  spans.sort((a, b) => a[0] - b[0])
  const gaps: Span[] = []
  let reached = Number.POSITIVE_INFINITY
  for (const [from, to] of spans) {
    if (from > reached) gaps.push([reached, from])
    reached = reached === Number.POSITIVE_INFINITY ? to : Math.max(reached, to)
  }
  return gaps
}
