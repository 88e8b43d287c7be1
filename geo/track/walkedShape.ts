import { longAxis } from '../plane/longAxis.ts'
import type { Metres } from '../plane/lonLat.ts'
import { isDrawn } from './denseRuns.ts'
import { R95, UNTOLD_M } from './fix.ts'
import { median } from './median.ts'
import type { Walk } from './readWalk.ts'
import { simplifyLine, simplifyRing } from './simplify.ts'

/** Which places of a walk make the shape: the corners held alone, straight between; or all of the way. */
export type WalkedBy = 'corners' | 'way'

/** A shape made of a walk, in the plane; a ring's first corner is not said again. */
export interface WalkedShape {
  readonly corners: readonly Metres[]
  /** The median of what the device said of the places it is made of; null where it never said. */
  readonly accuracyM: number | null
}

/** The shape of a walk, simplified where it is the way that was walked: corners held stay. */
export function walkedShape(walk: Walk, by: WalkedBy, closed: boolean, toleranceM: number): WalkedShape {
  const places = placesOf(walk, by)
  const told = places.flatMap(({ accuracyM }) => accuracyM ?? [])
  return {
    corners:
      by === 'corners' ? places.map(({ at }) => at) : simplified(places, closed ? endsAt(walk) : null, toleranceM),
    accuracyM: told.length > 0 ? median(told) : null,
  }
}

/** Less than the rounding of coordinates in files: a drawn ring that says its first corner again says the same. */
const SAME_M = 0.1

/** How near to its start a ring's way may end, of a first place as sure as that. */
function endsAt({ parts }: Walk): (accuracyM: number | null) => number {
  return isDrawn(parts.flatMap(({ fixes }) => fixes)) ? () => SAME_M : (accuracyM) => 2 * (accuracyM ?? UNTOLD_M)
}

/**
 * The tolerance that a walk's way is simplified by until the person says another: half of how sure its positions are,
 * from half a metre to five, by half metres. None where they were set down: each of them is meant.
 */
export function usualToleranceM(walk: Walk): number {
  if (isDrawn(walk.parts.flatMap(({ fixes }) => fixes))) return 0
  const { accuracyM } = walkedShape(walk, 'way', false, 0)
  return Math.min(5, Math.max(0.5, Math.round(accuracyM ?? UNTOLD_M) / 2))
}

interface Place {
  readonly at: Metres
  readonly accuracyM: number | null
  readonly held: boolean
}

function placesOf({ parts }: Walk, by: WalkedBy): Place[] {
  return parts.flatMap((part): Place[] => {
    if (part.is === 'held') return part.corner ? [{ ...part.corner, held: true }] : []
    if (by === 'corners') return []
    return part.fixes.flatMap((fix, n) => (part.out[n] ? [] : [{ ...fix, held: false }]))
  })
}

/** From held corner to held corner by itself; a ring (which ends as near to its start as is told) without any as a whole. */
function simplified(
  told: readonly Place[],
  endsAt: ((accuracyM: number | null) => number) | null,
  toleranceM: number,
): Metres[] {
  const closed = endsAt !== null
  const pinned = leftToCorners(told)
  const places = closed ? closedAtStart(pinned, endsAt) : pinned
  const first = places.findIndex(({ held }) => held)
  if (closed && first < 0)
    return simplifyRing(
      places.map(({ at }) => at),
      toleranceM,
    )
  const around = closed ? [...places.slice(first), ...places.slice(0, first + 1)] : places
  const pins = around.flatMap(({ held }, n) => (held || n === 0 || n === around.length - 1 ? [n] : []))
  const line = pins.flatMap((from, k): Metres[] => {
    const to = pins[k + 1]
    const piece = around.slice(from, (to ?? from) + 1).map(({ at }) => at)
    return to === undefined ? piece : simplifyLine(piece, toleranceM).slice(0, -1)
  })
  return closed ? line.slice(0, -1) : line
}

/** Without what was walked nearer to a held corner than it is sure: there it can't be told from the corner. */
function leftToCorners(places: readonly Place[]): Place[] {
  const held = places.filter((place) => place.held)
  return places.filter(
    (place) => place.held || held.every(({ at }) => apart(at, place.at) > (place.accuracyM ?? UNTOLD_M)),
  )
}

/** A ring's way ends where, in its last third, it comes nearest to its start, if it comes as near as it may end: people walk on past it. */
function closedAtStart(places: readonly Place[], endsAt: (accuracyM: number | null) => number): readonly Place[] {
  const first = places[0]
  if (!first) return places
  const from = Math.ceil((places.length * 2) / 3)
  let nearest = -1
  let least = endsAt(first.accuracyM)
  for (let n = Math.max(from, 2); n < places.length; n += 1) {
    const away = apart(first.at, places[n]!.at)
    if (!places[n]!.held && away < least) [nearest, least] = [n, away]
  }
  return nearest < 0 || places.slice(nearest).some(({ held }) => held) ? places : places.slice(0, nearest)
}

/** What accuracy means for a piece of ground: how far its area may be off (95 in 100), and whether it can serve as a boundary. */
export interface WalkedJudgement {
  readonly areaOffM2: number | null
  readonly fit: 'good enough' | 'rough' | 'too poor'
}

/**
 * Judges a walked shape. Its corners are taken to err independently with the same scatter, which makes the area's
 * standard deviation s/2·√Σ|pₙ₊₁ − pₙ₋₁|² (from the shoelace formula by the propagation of errors; Chrisman & Yandell
 * 1988, Surveying and Mapping 48, 241–246). Rough: the area may be off by more than a tenth, or the ground is less than
 * eight times as wide as its corners are sure; too poor: by more than a quarter, or less than three times. A line is
 * rough always beyond half a metre, and too poor where it is shorter than three times its accuracy.
 */
export function judgeWalked({ corners, accuracyM }: WalkedShape, closed: boolean): WalkedJudgement {
  if (accuracyM === null) return { areaOffM2: null, fit: 'rough' }
  if (!closed) {
    const lengthM = corners.reduce((sum, at, n) => (n === 0 ? 0 : sum + apart(at, corners[n - 1]!)), 0)
    return { areaOffM2: null, fit: lengthM < 3 * accuracyM ? 'too poor' : accuracyM > 0.5 ? 'rough' : 'good enough' }
  }
  const many = corners.length
  const squares = corners.reduce((sum, _, n) => {
    const across = apart(corners[(n + 1) % many]!, corners[(n + many - 1) % many]!)
    return sum + across * across
  }, 0)
  const areaOffM2 = (1.959964 * (accuracyM / R95) * Math.sqrt(squares)) / 2
  const share = areaOffM2 / Math.max(areaOf(corners), 1e-9)
  const widthM = longAxis(corners)?.acrossM ?? 0
  if (share > 0.25 || widthM < 3 * accuracyM) return { areaOffM2, fit: 'too poor' }
  return { areaOffM2, fit: share > 0.1 || widthM < 8 * accuracyM ? 'rough' : 'good enough' }
}

const apart = (a: Metres, b: Metres) => Math.hypot(a[0] - b[0], a[1] - b[1])

function areaOf(ring: readonly Metres[]): number {
  const [x0, y0] = ring[0] ?? [0, 0]
  let twice = 0
  for (let n = 1; n + 1 < ring.length; n += 1)
    twice += (ring[n]![0] - x0) * (ring[n + 1]![1] - y0) - (ring[n + 1]![0] - x0) * (ring[n]![1] - y0)
  return Math.abs(twice) / 2
}
