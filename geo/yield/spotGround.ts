import { type BoxGrid, boxesNear, boxGrid } from './boxGrid.ts'
import { clipWindow } from './clipHalfPlane.ts'
import type { LaidBed } from './plantingStrips.ts'
import type { Bounds, Ring } from './ring.ts'
import { ringsAreaM2, ringsBounds } from './ring.ts'
import { SPOT_RADIUS_M, spotCircle } from './spotCircle.ts'

/** Ground in one bed that a spot's pick counts to. */
export type SpotPart = { readonly bed: number; readonly rings: readonly Ring[]; readonly areaM2: number }

/** Beds set out for looking up by place. */
export type BedFinder = { readonly beds: readonly LaidBed[]; readonly boxes: readonly Bounds[]; readonly grid: BoxGrid }

const BUCKET_M = 16
const NO_GROUND_M2 = 1e-6

export function bedFinder(beds: readonly LaidBed[]): BedFinder {
  const boxes = beds.map((bed) => ringsBounds(bed.rings))
  return { beds, boxes, grid: boxGrid(boxes, BUCKET_M) }
}

/**
 * The ground of a pick told by position: the 1 m circle about it, clipped to beds. Where it meets none, the circle is
 * moved to the nearest point of the nearest bed. Empty only on a farm without beds.
 */
export function spotGround(finder: BedFinder, x: number, y: number): { parts: SpotPart[]; moved: boolean } {
  const parts = partsAround(finder, x, y)
  if (parts.length > 0 || finder.beds.length === 0) return { parts, moved: false }
  const { bed, px, py } = nearestGround(finder, x, y)
  const rings = clipWindow(finder.beds[bed]!.rings, spotCircle(px, py))
  return { parts: [{ bed, rings, areaM2: ringsAreaM2(rings) }], moved: true }
}

function partsAround({ beds, boxes, grid }: BedFinder, x: number, y: number): SpotPart[] {
  const reach = SPOT_RADIUS_M * 1.01
  const box: Bounds = [x - reach, y - reach, x + reach, y + reach]
  const circle = spotCircle(x, y)
  const parts: SpotPart[] = []
  for (const bed of boxesNear(grid, box)) {
    const [minX, minY, maxX, maxY] = boxes[bed]!
    if (minX > box[2] || maxX < box[0] || minY > box[3] || maxY < box[1]) continue
    const rings = clipWindow(beds[bed]!.rings, circle)
    const areaM2 = ringsAreaM2(rings)
    if (areaM2 > NO_GROUND_M2) parts.push({ bed, rings, areaM2 })
  }
  return parts
}

type Nearest = { readonly bed: number; readonly px: number; readonly py: number }

function nearestGround({ beds, boxes }: BedFinder, x: number, y: number): Nearest {
  let nearest: Nearest = { bed: 0, px: x, py: y }
  let least = Number.POSITIVE_INFINITY
  boxes.forEach(([minX, minY, maxX, maxY], bed) => {
    const toBox = Math.hypot(Math.max(minX - x, 0, x - maxX), Math.max(minY - y, 0, y - maxY))
    if (toBox >= least) return
    for (const ring of beds[bed]!.rings) {
      const [px, py] = nearestOnRing(ring, x, y)
      const away = Math.hypot(px - x, py - y)
      if (away >= least) continue
      least = away
      nearest = { bed, px, py }
    }
  })
  return nearest
}

/** The point of a ring's boundary nearest to a place. */
export function nearestOnRing(ring: Ring, x: number, y: number): readonly [number, number] {
  let best: readonly [number, number] = [ring[0]!, ring[1]!]
  let least = Number.POSITIVE_INFINITY
  let ax = ring[ring.length - 2]!
  let ay = ring[ring.length - 1]!
  for (let k = 0; k < ring.length; k += 2) {
    const bx = ring[k]!
    const by = ring[k + 1]!
    const squared = (bx - ax) ** 2 + (by - ay) ** 2
    const along = squared === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared
    const t = Math.min(1, Math.max(0, along))
    const px = ax + (bx - ax) * t
    const py = ay + (by - ay) * t
    const d2 = (px - x) ** 2 + (py - y) ** 2
    if (d2 < least) {
      least = d2
      best = [px, py]
    }
    ax = bx
    ay = by
  }
  return best
}
