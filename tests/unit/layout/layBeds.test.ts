import { describe, expect, it } from 'vitest'
import { type Area, areaM2, edgesOf, isIn, type Segment } from '../../../geo/layout/area.ts'
import { type BedPlan, type LaidBed, layBeds } from '../../../geo/layout/layBeds.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { madeCase } from './randomFields.ts'

const PLAN: BedPlan = {
  bearingDeg: 90,
  by: { widthM: 0.75 },
  pathM: 0.45,
  headlandM: 0,
  headland: 'all round',
  begin: 'left',
  pieces: 'longest',
  leastLengthM: 3,
  lengthM: null,
}
/** 100 m east–west by 30 m north–south. */
const OBLONG: Area = [
  [
    [0, 0],
    [100, 0],
    [100, 30],
    [0, 30],
  ],
]
const SEEDS = Array.from({ length: 60 }, (_, n) => n + 1)

/** Least distance between two straight pieces that do not cross: from an end of one to the other (M). */
function apartM(one: Segment, other: Segment): number {
  const toSegment = ([px, py]: Metres, [[ax, ay], [bx, by]]: Segment) => {
    const [dx, dy] = [bx - ax, by - ay]
    const size = dx * dx + dy * dy
    const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((px - ax) * dx + (py - ay) * dy) / size))
    return Math.hypot(px - ax - t * dx, py - ay - t * dy)
  }
  return Math.min(
    toSegment(one[0], other),
    toSegment(one[1], other),
    toSegment(other[0], one),
    toSegment(other[1], one),
  )
}
const cross = (a: Metres, b: Metres, p: Metres) => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
const crosses = ([a, b]: Segment, [c, d]: Segment) =>
  cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0

/** How near a rectangle's outline comes to an area's; −1 where they cross or a ring lies within. */
function clearanceM(corners: readonly Metres[], area: Area): number {
  let least = Number.POSITIVE_INFINITY
  for (const side of edgesOf([corners]))
    for (const edge of edgesOf(area)) {
      if (crosses(side, edge)) return -1
      least = Math.min(least, apartM(side, edge))
    }
  return area.some((ring) => isIn([corners], ring[0]!)) ? -1 : least
}

/** The bed made longer at both ends, and wider on both sides. */
function grown({ corners: [a, b, c, d], lengthM }: LaidBed, longerM: number, widerM: number): Metres[] {
  const [ux, uy] = [(b[0] - a[0]) / lengthM, (b[1] - a[1]) / lengthM]
  const moved = ([x, y]: Metres, along: number, left: number): Metres => [
    x + ux * along * longerM - uy * left * widerM,
    y + uy * along * longerM + ux * left * widerM,
  ]
  return [moved(a, -1, -1), moved(b, 1, -1), moved(c, 1, 1), moved(d, -1, 1)]
}

describe('a field filled with beds', () => {
  it('holds as many of a width as go in with their paths, worked by hand', () => {
    // 25 beds of 0.75 and 24 paths of 0.45 are 29.55 m; one more pair would be 30.75 m.
    const laid = layBeds(OBLONG, [], PLAN)!
    expect(laid.beds).toHaveLength(25)
    for (const { lengthM } of laid.beds) expect(lengthM).toBeCloseTo(100, 9)
    // East is to the right of north: beds that run east have the north on their left, where the first lies.
    expect(laid.beds[0]!.corners[2][1]).toBeCloseTo(30, 9)
  })

  it('keeps a headland all round, or at the ends alone', () => {
    const round = layBeds(OBLONG, [], { ...PLAN, headlandM: 3 })!
    // (30 − 6 + 0.45) / 1.2 = 20.4
    expect(round.beds).toHaveLength(20)
    expect(round.beds[0]!.lengthM).toBeCloseTo(94, 9)
    const ends = layBeds(OBLONG, [], { ...PLAN, headlandM: 3, headland: 'ends' })!
    expect(ends.beds).toHaveLength(25)
    expect(ends.beds[0]!.lengthM).toBeCloseTo(94, 9)
  })

  it('gives the number of beds asked for the width that the ground allows', () => {
    const laid = layBeds(OBLONG, [], { ...PLAN, by: { count: 10 } })!
    expect(laid.beds).toHaveLength(10)
    // (30 − 9 · 0.45) / 10
    expect(laid.widthM).toBeCloseTo(2.595, 9)
  })

  it('gives the number asked for also where corners of the field hold none', () => {
    const wedge: Area = [
      [
        [0, 0],
        [60, 0],
        [0, 40],
      ],
    ]
    const laid = layBeds(wedge, [], { ...PLAN, by: { count: 8 }, leastLengthM: 10 })!
    expect(laid.beds).toHaveLength(8)
    expect(laid.empty).toBeGreaterThan(0)
  })

  it('cuts strips into beds of a set length, with a path between', () => {
    const laid = layBeds(OBLONG, [], { ...PLAN, lengthM: 30 })!
    // 3 · 30 + 2 · 0.45 is 90.9 m of the 100.
    expect(laid.beds).toHaveLength(75)
    expect(new Set(laid.beds.map(({ lengthM }) => Math.round(lengthM * 1e9)))).toEqual(new Set([30e9]))
  })

  it('goes round a tree by the longest piece, or by every piece', () => {
    const tree = {
      area: [],
      edges: [
        [
          [40, 15],
          [40, 15],
        ],
      ] as const,
      clearM: 2,
    }
    const longest = layBeds(OBLONG, [tree], PLAN)!
    const every = layBeds(OBLONG, [tree], { ...PLAN, pieces: 'every' })!
    const cut = longest.beds.filter(({ lengthM }) => lengthM < 99)
    expect(cut.length).toBeGreaterThan(2)
    expect(every.beds).toHaveLength(longest.beds.length + cut.length)
    // The strip from 14.7 to 15.45 m holds the trunk's north: 2 m west and east of it are kept clear.
    const nearest = longest.beds.reduce((least, bed) => (bed.lengthM < least.lengthM ? bed : least))
    expect(nearest.lengthM).toBeCloseTo(58, 9)
  })

  it('says so where not one fits, or more than a person can mean', () => {
    expect(layBeds(OBLONG, [], { ...PLAN, by: { widthM: 31 } })).toBeNull()
    expect(layBeds(OBLONG, [], { ...PLAN, headlandM: 16 })).toBeNull()
    expect(layBeds(OBLONG, [], { ...PLAN, by: { widthM: 0.001 }, pathM: 0 })).toBeNull()
  })

  it.each(SEEDS)('lies clear of everything and is as long as it can be: seed %i', (seed) => {
    const { field, obstacles, plan } = madeCase(seed)
    const laid = layBeds(field, obstacles, plan)
    if (!laid) return
    const headM = plan.headland === 'all round' ? plan.headlandM : 0
    const clearOf = (corners: readonly Metres[]) =>
      clearanceM(corners, field) >= headM - 3e-6 &&
      obstacles.every(({ area, edges, clearM }) => {
        const lines = [...edges, ...edgesOf(area)]
        return lines.every((line) => edgesOf([corners]).every((side) => apartM(side, line) >= clearM - 3e-6))
      })
    for (const bed of laid.beds) {
      const [a, b, c] = bed.corners
      const middle: Metres = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2]
      expect(isIn(field, middle)).toBe(true)
      // A hair is taken off, so that sides that lie along the field's edge do not count as crossing it.
      expect(clearOf(grown(bed, -3e-6, -3e-6))).toBe(true)
      expect(Math.hypot(b[0] - c[0], b[1] - c[1])).toBeCloseTo(laid.widthM, 9)
      if (plan.lengthM === null && plan.headland === 'all round') expect(clearOf(grown(bed, 0.01, -3e-6))).toBe(false)
      if (plan.headland === 'ends')
        expect(clearanceM(grown(bed, plan.headlandM - 1e-5, -3e-6), field)).toBeGreaterThan(0)
    }
    const sum = laid.beds.reduce((all, bed) => all + bed.lengthM * laid.widthM, 0)
    const byCorners = laid.beds.reduce((all, { corners }) => all + areaM2([corners]), 0)
    expect(Math.abs(sum - byCorners)).toBeLessThan(1e-9 * Math.max(1, sum))
    expect(sum).toBeLessThan(areaM2(field))
  })

  it('has laid beds in nearly all of the made fields', () => {
    const counts = SEEDS.map((seed) => {
      const { field, obstacles, plan } = madeCase(seed)
      return layBeds(field, obstacles, plan)?.beds.length ?? 0
    })
    expect(counts.filter((count) => count > 0).length).toBeGreaterThan(52)
    expect(counts.reduce((a, b) => a + b, 0)).toBeGreaterThan(600)
  })
})
