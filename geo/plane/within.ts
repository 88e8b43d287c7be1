import type { Metres } from './lonLat.ts'

/** A part of a line from one distance along it to another, in metres. */
export type Span = readonly [fromM: number, toM: number]

/**
 * The parts of a line that run within `reachM` of any of the other lines, as distances along it, in order and apart.
 * Ground within reach of one straight piece is convex, so each pair of straight pieces gives at most one span; exact
 * but for rounding.
 */
export function spansWithin(line: readonly Metres[], others: readonly (readonly Metres[])[], reachM: number): Span[] {
  const spans: [number, number][] = []
  let along = 0
  for (let i = 0; i + 1 < line.length; i++) {
    const [a, b] = [line[i]!, line[i + 1]!]
    const lengthM = Math.hypot(b[0] - a[0], b[1] - a[1])
    if (lengthM === 0) continue
    for (const other of others)
      for (let j = 0; j + 1 < other.length; j++) {
        const part = inCapsule(a, b, lengthM, other[j]!, other[j + 1]!, reachM)
        if (part) spans.push([along + part[0], along + part[1]])
      }
    along += lengthM
  }
  return joined(spans)
}

/** Length of spans that lie apart, in metres. */
export function spansLength(spans: readonly Span[]): number {
  return spans.reduce((sum, [from, to]) => sum + to - from, 0)
}

/** The part of a line between two distances along it. */
export function partOfLine(line: readonly Metres[], [fromM, toM]: Span): Metres[] {
  const part: Metres[] = []
  let along = 0
  for (let i = 0; i + 1 < line.length; i++) {
    const [a, b] = [line[i]!, line[i + 1]!]
    const lengthM = Math.hypot(b[0] - a[0], b[1] - a[1])
    const at = (m: number): Metres => [a[0] + ((b[0] - a[0]) * m) / lengthM, a[1] + ((b[1] - a[1]) * m) / lengthM]
    const [from, to] = [Math.max(fromM - along, 0), Math.min(toM - along, lengthM)]
    if (lengthM > 0 && from < to) {
      if (part.length === 0) part.push(from === 0 ? a : at(from))
      part.push(to === lengthM ? b : at(to))
    }
    along += lengthM
  }
  return part
}

function joined(spans: [number, number][]): Span[] {
  spans.sort((a, b) => a[0] - b[0])
  const apart: [number, number][] = []
  for (const span of spans) {
    const last = apart.at(-1)
    if (last && span[0] <= last[1]) last[1] = Math.max(last[1], span[1])
    else apart.push([...span])
  }
  return apart
}

/** Where the straight piece a–b is within reach of c–d: in the strip beside it or in the circle at either end. */
function inCapsule(a: Metres, b: Metres, lengthM: number, c: Metres, d: Metres, reachM: number): Span | null {
  const [ux, uy] = [(b[0] - a[0]) / lengthM, (b[1] - a[1]) / lengthM]
  const parts = [inCircle(a, ux, uy, c, reachM), inCircle(a, ux, uy, d, reachM), inStrip(a, ux, uy, c, d, reachM)]
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const part of parts)
    if (part) {
      from = Math.min(from, part[0])
      to = Math.max(to, part[1])
    }
  from = Math.max(from, 0)
  to = Math.min(to, lengthM)
  return from < to ? [from, to] : null
}

function inCircle(a: Metres, ux: number, uy: number, centre: Metres, r: number): Span | null {
  const [dx, dy] = [centre[0] - a[0], centre[1] - a[1]]
  const along = dx * ux + dy * uy
  const off = dx * uy - dy * ux
  if (Math.abs(off) > r) return null
  const half = Math.sqrt(r * r - off * off)
  return [along - half, along + half]
}

function inStrip(a: Metres, ux: number, uy: number, c: Metres, d: Metres, r: number): Span | null {
  const lengthM = Math.hypot(d[0] - c[0], d[1] - c[1])
  if (lengthM === 0) return null
  const [vx, vy] = [(d[0] - c[0]) / lengthM, (d[1] - c[1]) / lengthM]
  const [dx, dy] = [a[0] - c[0], a[1] - c[1]]
  const beside = between(dx * vx + dy * vy, ux * vx + uy * vy, 0, lengthM)
  const near = between(dx * vy - dy * vx, ux * vy - uy * vx, -r, r)
  if (!beside || !near) return null
  const [from, to] = [Math.max(beside[0], near[0]), Math.min(beside[1], near[1])]
  return from < to ? [from, to] : null
}

/** Where start + t·slope lies between low and high. */
function between(start: number, slope: number, low: number, high: number): Span | null {
  if (slope === 0) return start >= low && start <= high ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null
  const [p, q] = [(low - start) / slope, (high - start) / slope]
  return p < q ? [p, q] : [q, p]
}
