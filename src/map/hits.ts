import type { Geometry, Position } from 'geojson'
import type { Thing, ThingKind } from './farmMap.ts'

export type Pixel = readonly [x: number, y: number]

/** Something near the pointer. `distancePx` is to its line, point or edge, 0 inside an area; `area` tells a ground from a mark or line. */
export interface Candidate {
  readonly thing: Thing
  readonly distancePx: number
  readonly area: boolean
}

/** Marks and lines by which is taken where two are as near; grounds from the small to the wide. */
const ORDER: readonly ThingKind[] = [
  'observations',
  'trees',
  'supports',
  'plantings',
  'rows',
  'structures',
  'beds',
  'fields',
]
const rank = ({ thing }: Candidate) => ORDER.indexOf(thing.kind)

/** How near a mark or line must be to be meant, with a bed under the pointer and without; 22 px makes a target of 44. */
export const REACH_PX = { mouse: { overBed: 4, open: 8 }, touch: { overBed: 9, open: 22 } } as const

/** What a tap means: a mark or line right under it, else the bed or structure that holds it, else the nearest bed or structure in reach, else the field. */
export function chooseHit(candidates: readonly Candidate[], touch: boolean): Thing | null {
  const reach = REACH_PX[touch ? 'touch' : 'mouse']
  const best = (some: readonly Candidate[]) =>
    some.reduce<Candidate | null>(
      (a, b) => (a && a.distancePx + 0.6 * rank(a) <= b.distancePx + 0.6 * rank(b) ? a : b),
      null,
    )
  const grounds = candidates.filter((c) => c.area && c.thing.kind !== 'fields')
  const under = grounds.filter((c) => c.distancePx === 0)
  const markReach = under.length > 0 ? reach.overBed : reach.open
  const found =
    best(candidates.filter((c) => !c.area && c.distancePx <= markReach)) ??
    best(under) ??
    best(grounds.filter((c) => c.distancePx <= reach.open)) ??
    best(candidates.filter((c) => c.thing.kind === 'fields' && c.distancePx <= reach.open))
  return found?.thing ?? null
}

function toSegment([x, y]: Pixel, [ax, ay]: Pixel, [bx, by]: Pixel): number {
  const [dx, dy] = [bx - ax, by - ay]
  const size = dx * dx + dy * dy
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / size))
  return Math.hypot(x - ax - t * dx, y - ay - t * dy)
}

function inRing([x, y]: Pixel, ring: readonly Pixel[]): boolean {
  let inside = false
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i]!
    const [bx, by] = ring[j]!
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
  }
  return inside
}

/** How far a geometry is from a place on the screen, and whether it is an area (then 0 inside it). */
export function distanceTo(geometry: Geometry, at: Pixel, project: (p: Position) => Pixel): Omit<Candidate, 'thing'> {
  const line = (positions: readonly Position[]): number => {
    const pixels = positions.map(project)
    if (pixels.length === 1) return Math.hypot(at[0] - pixels[0]![0], at[1] - pixels[0]![1])
    return pixels
      .slice(1)
      .reduce((least, p, i) => Math.min(least, toSegment(at, pixels[i]!, p)), Number.POSITIVE_INFINITY)
  }
  const area = (rings: readonly (readonly Position[])[]): number => {
    const pixels = rings.map((ring) => ring.map(project))
    const holds = pixels.length > 0 && inRing(at, pixels[0]!) && !pixels.slice(1).some((hole) => inRing(at, hole))
    return holds ? 0 : Math.min(...rings.map(line))
  }
  switch (geometry.type) {
    case 'Point':
      return { distancePx: line([geometry.coordinates]), area: false }
    case 'MultiPoint':
      return { distancePx: Math.min(...geometry.coordinates.map((p) => line([p]))), area: false }
    case 'LineString':
      return { distancePx: line(geometry.coordinates), area: false }
    case 'MultiLineString':
      return { distancePx: Math.min(...geometry.coordinates.map(line)), area: false }
    case 'Polygon':
      return { distancePx: area(geometry.coordinates), area: true }
    case 'MultiPolygon':
      return { distancePx: Math.min(...geometry.coordinates.map(area)), area: true }
    case 'GeometryCollection': {
      const parts = geometry.geometries.map((part) => distanceTo(part, at, project))
      return parts.reduce((a, b) => (b.distancePx < a.distancePx ? b : a))
    }
  }
}
