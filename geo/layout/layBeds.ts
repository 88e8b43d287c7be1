import type { Metres } from '../plane/lonLat.ts'
import type { Area } from './area.ts'
import type { Span } from './blockedSpan.ts'
import { type Obstacle, type OpenGround, openGround, openSpans } from './openSpans.ts'
import { turnedFrame } from './turnedFrame.ts'

/** How a field is to be filled with beds. Left and right are as seen along the bearing. */
export interface BedPlan {
  /** Degrees clockwise from the plane's north; which way along the beds does not matter but for left and right. */
  readonly bearingDeg: number
  /** So many beds, as wide as the ground between allows; or beds of a width, as many as fit. */
  readonly by: { readonly count: number } | { readonly widthM: number }
  /** Between beds side by side, and between beds of a set length end to end. */
  readonly pathM: number
  /** Left free at the field's edge: on all its sides, or only where beds end, measured along them. */
  readonly headlandM: number
  readonly headland: 'all round' | 'ends'
  /** Where the first bed lies; or where most ground comes under beds. */
  readonly begin: 'left' | 'right' | 'most'
  /** Where something cuts a strip: a bed in the longest piece only, or one in every piece. */
  readonly pieces: 'longest' | 'every'
  /** Beds shorter than this are left out. */
  readonly leastLengthM: number
  /** Every bed exactly this long; null where each is as long as the ground allows. */
  readonly lengthM: number | null
}

/** A bed that would be laid: a rectangle, its corners in the plane counter-clockwise. */
export interface LaidBed {
  readonly corners: readonly [Metres, Metres, Metres, Metres]
  readonly lengthM: number
  /** Which strip it lies in, from the left, and which piece of it, along the bearing. */
  readonly strip: number
  readonly piece: number
}

export interface LaidBeds {
  readonly beds: readonly LaidBed[]
  /** The width of every bed. */
  readonly widthM: number
  /** Strips across the field, and how many of them hold no bed. */
  readonly strips: number
  readonly empty: number
}

/** More strips than this are a slip of the pen. */
export const MOST_STRIPS = 2000
const OFFSETS = 24

/**
 * Fills a field with beds: strips of one width with paths between, each cut square to the longest ground in it that is
 * clear over the strip's whole width. Beds never overlap nor leave the field (to a micrometre). Null where not one
 * strip fits, or more than 2,000 would.
 */
export function layBeds(field: Area, obstacles: readonly Obstacle[], plan: BedPlan): LaidBeds | null {
  const frame = turnedFrame(plan.bearingDeg)
  const turn = (area: Area): Area => area.map((ring) => ring.map(frame.toTurned))
  const ground = openGround(
    turn(field),
    { byM: plan.headlandM, how: plan.headland === 'ends' ? 'along' : 'round' },
    obstacles.map(({ area, edges, clearM }) => ({
      area: turn(area),
      edges: edges.map(([a, b]) => [frame.toTurned(a), frame.toTurned(b)] as const),
      clearM,
    })),
  )
  const found = 'count' in plan.by ? byCount(ground, plan, plan.by.count) : byWidth(ground, plan, plan.by.widthM)
  if (!found) return null
  const corner = (along: number, right: number) => frame.toPlane([along, right])
  return {
    widthM: found.widthM,
    strips: found.strips,
    empty: found.strips - new Set(found.cut.map(({ strip }) => strip)).size,
    beds: found.cut.map(({ span: [from, to], leftM, strip, piece }) => ({
      corners: [
        corner(from, leftM + found.widthM),
        corner(to, leftM + found.widthM),
        corner(to, leftM),
        corner(from, leftM),
      ],
      lengthM: to - from,
      strip,
      piece,
    })),
  }
}

interface Cut {
  readonly span: Span
  readonly leftM: number
  readonly strip: number
  readonly piece: number
}
interface Found {
  readonly cut: readonly Cut[]
  readonly widthM: number
  readonly strips: number
}

/** The first and last distance to the right at which beds may lie. */
function breadth({ field, headland }: OpenGround): Span {
  const rights = field.flat().map(([, right]) => right)
  const inset = headland.how === 'round' ? headland.byM : 0
  return [
    rights.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY) + inset,
    rights.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY) - inset,
  ]
}

function byWidth(ground: OpenGround, plan: BedPlan, widthM: number): Found | null {
  const [leftM, rightM] = breadth(ground)
  const pitch = widthM + plan.pathM
  const fitFrom = (start: number) => Math.floor((rightM - start + plan.pathM) / pitch + 1e-9)
  const strips = fitFrom(leftM)
  if (!(strips >= 1 && strips <= MOST_STRIPS)) return null
  const from = (start: number): Found => ({
    cut: cutStrips(ground, plan, start, widthM, fitFrom(start)),
    widthM,
    strips: fitFrom(start),
  })
  if (plan.begin === 'left') return from(leftM)
  if (plan.begin === 'right') return from(rightM - strips * pitch + plan.pathM)
  let best = from(leftM)
  for (let n = 1; n < OFFSETS; n += 1) {
    const other = from(leftM + (pitch * n) / OFFSETS)
    if (metresOf(other) > metresOf(best) + 1e-6) best = other
  }
  return best
}

/** So many beds; where corners of the field hold none, the strips are made narrower until as many beds come out. */
function byCount(ground: OpenGround, plan: BedPlan, count: number): Found | null {
  const [leftM, rightM] = breadth(ground)
  let best: Found | null = null
  for (let strips = count; strips <= Math.min(count * 3, MOST_STRIPS); strips += 1) {
    const widthM = (rightM - leftM - (strips - 1) * plan.pathM) / strips
    if (!(widthM > 0)) break
    const found: Found = { cut: cutStrips(ground, plan, leftM, widthM, strips), widthM, strips }
    if (!best || found.cut.length > best.cut.length) best = found
    if (best.cut.length >= count) break
  }
  return best
}

const metresOf = ({ cut }: Found) => cut.reduce((sum, { span: [from, to] }) => sum + to - from, 0)

function cutStrips(ground: OpenGround, plan: BedPlan, start: number, widthM: number, strips: number): Cut[] {
  const cut: Cut[] = []
  for (let strip = 0; strip < strips; strip += 1) {
    const leftM = start + strip * (widthM + plan.pathM)
    const spans = openSpans(ground, { leftM, rightM: leftM + widthM })
    const pieces = plan.pieces === 'every' ? spans : longestOf(spans)
    const beds = pieces.flatMap((span) => cutToLength(span, plan))
    cut.push(...beds.map((span, piece) => ({ span, leftM, strip, piece })))
  }
  return cut
}

function longestOf(spans: readonly Span[]): readonly Span[] {
  if (spans.length === 0) return []
  return [spans.reduce((best, span) => (span[1] - span[0] > best[1] - best[0] ? span : best))]
}

function cutToLength([from, to]: Span, { lengthM, leastLengthM, pathM }: BedPlan): Span[] {
  if (lengthM === null) return to - from >= leastLengthM && to > from ? [[from, to]] : []
  const many = Math.floor((to - from + pathM) / (lengthM + pathM) + 1e-9)
  return Array.from({ length: Math.max(0, many) }, (_, n): Span => {
    const start = from + n * (lengthM + pathM)
    return [start, start + lengthM]
  })
}
