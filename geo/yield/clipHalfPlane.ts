import type { Ring } from './ring.ts'
import { ringAreaM2 } from './ring.ts'

/** Points where `nx·x + ny·y ≥ c`; (nx, ny) need not have length 1. */
export type HalfPlane = { readonly nx: number; readonly ny: number; readonly c: number }

/** Slivers below this are rounding, not ground (m²). */
const SLIVER_M2 = 1e-11

/** A run of kept vertices from where the boundary comes in to where it goes out, each told by its place along the line. */
type Chain = { readonly points: number[]; readonly tIn: number; tOut: number }

/**
 * The part of polygons (rings as in `Ring`) on the kept side of a line. Holes and concave outlines come out as sound
 * polygons: where the line cuts one into several, each part is its own ring.
 *
 * Method: outside runs are dropped; the kept runs are joined along the line, each way out to the next way in. Whatever
 * the joining, the signed areas add up to the area kept, since all joins lie on one line.
 */
export function clipHalfPlane(rings: readonly Ring[], { nx, ny, c }: HalfPlane): Ring[] {
  const kept: Ring[] = []
  let chains: Chain[] | undefined
  for (const ring of rings) {
    const start = firstWayIn(ring, nx, ny, c)
    if (start === 'inside') kept.push(ring)
    else if (start !== 'outside') {
      chains ??= []
      collectChains(ring, start, nx, ny, c, chains)
    }
  }
  if (chains !== undefined) joinChains(chains, kept)
  return kept
}

/** The part of polygons inside a convex window given by its sides. */
export function clipWindow(rings: readonly Ring[], window: readonly HalfPlane[]): readonly Ring[] {
  let left = rings
  for (const side of window) {
    if (left.length === 0) return left
    left = clipHalfPlane(left, side)
  }
  return left
}

/**
 * Offset of a vertex inside that follows one that is not, or that there is nothing to cut: no vertex lies outside, or
 * none inside. Vertices on the line are neither.
 */
function firstWayIn(ring: Ring, nx: number, ny: number, c: number): number | 'inside' | 'outside' {
  const n = ring.length
  let before = nx * ring[n - 2]! + ny * ring[n - 1]! - c
  let wayIn = -1
  let anyIn = false
  let anyOut = false
  for (let k = 0; k < n; k += 2) {
    const here = nx * ring[k]! + ny * ring[k + 1]! - c
    if (here > 0) {
      anyIn = true
      if (before <= 0) wayIn = k
    } else if (here < 0) anyOut = true
    before = here
  }
  if (!anyIn) return 'outside'
  return anyOut ? wayIn : 'inside'
}

function collectChains(ring: Ring, start: number, nx: number, ny: number, c: number, chains: Chain[]): void {
  const n = ring.length
  let px = ring[(start + n - 2) % n]!
  let py = ring[(start + n - 1) % n]!
  let pd = nx * px + ny * py - c
  let chain: Chain | undefined
  for (let step = 0; step < n; step += 2) {
    const k = (start + step) % n
    const x = ring[k]!
    const y = ring[k + 1]!
    const d = nx * x + ny * y - c
    if (d > 0 !== pd > 0) {
      const f = pd / (pd - d)
      const cx = d === 0 ? x : px + (x - px) * f
      const cy = d === 0 ? y : py + (y - py) * f
      const t = ny * cx - nx * cy
      if (chain === undefined) chain = { points: [cx, cy], tIn: t, tOut: 0 }
      else {
        chain.points.push(cx, cy)
        chain.tOut = t
        chains.push(chain)
        chain = undefined
      }
    }
    if (chain !== undefined) chain.points.push(x, y)
    px = x
    py = y
    pd = d
  }
}

/** Kept ground lies left of the line's direction (ny, −nx), so a way out joins the next way in along it. */
function joinChains(chains: Chain[], kept: Ring[]): void {
  if (chains.length === 1) {
    keep(chains[0]!.points, kept)
    return
  }
  const outs = chains.map((_, k) => k).sort((a, b) => chains[a]!.tOut - chains[b]!.tOut)
  const ins = chains.map((_, k) => k).sort((a, b) => chains[a]!.tIn - chains[b]!.tIn)
  const next: number[] = []
  outs.forEach((from, rank) => {
    next[from] = ins[rank]!
  })
  const done = chains.map(() => false)
  for (let first = 0; first < chains.length; first += 1) {
    if (done[first]) continue
    const points: number[] = []
    for (let k = first; !done[k]; k = next[k]!) {
      done[k] = true
      const more = chains[k]!.points
      const met = more[0] === points[points.length - 2] && more[1] === points[points.length - 1]
      for (let at = met ? 2 : 0; at < more.length; at += 1) points.push(more[at]!)
    }
    keep(points, kept)
  }
}

function keep(points: number[], kept: Ring[]): void {
  const n = points.length
  if (points[0] === points[n - 2] && points[1] === points[n - 1]) points.length = n - 2
  if (points.length >= 6 && Math.abs(ringAreaM2(points)) > SLIVER_M2) kept.push(points)
}
