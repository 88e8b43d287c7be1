import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { PlaneFix } from '../../../geo/track/fix.ts'
import { R95 } from '../../../geo/track/fix.ts'
import { heldCorner } from '../../../geo/track/heldCorner.ts'
import { median, robustSd } from '../../../geo/track/median.ts'
import { walkOutliers } from '../../../geo/track/outliers.ts'
import { readWalk } from '../../../geo/track/readWalk.ts'
import { simplifyLine, simplifyRing } from '../../../geo/track/simplify.ts'
import { judgeWalked, walkedShape } from '../../../geo/track/walkedShape.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import { type MadeWalk, makeWalk } from './walks.ts'

const fix = (east: number, north: number, accuracyM: number | null = 4): PlaneFix => ({
  at: [east, north],
  accuracyM,
  atMs: null,
})
const CORNERS: Metres[] = [
  [0, 0],
  [90, 5],
  [80, 60],
  [40, 45],
  [-5, 70],
]
const WALK: MadeWalk = {
  corners: CORNERS,
  accuracyM: 4,
  drift: 0.5,
  holdFixes: 20,
  outlierIn: 12,
  holds: true,
  stepM: 1.4,
}

describe('robust scatter', () => {
  it('is the scaled median of absolute deviations', () => {
    // R's mad(c(2, 4, 4, 9, 100)) (X).
    expect(median([2, 4, 4, 9, 100])).toBe(4)
    expect(robustSd([2, 4, 4, 9, 100])).toBeCloseTo(2.9652, 4)
    // A circle of 95 in 100 of a round normal scatter: 2.4477 sd, the root of R's qchisq(0.95, 2), 5.991465 (X).
    expect(R95).toBeCloseTo(Math.sqrt(5.991465), 6)
  })
})

describe('outliers of a walk', () => {
  it('are those far off their neighbours, not the corner of the way', () => {
    const east = Array.from({ length: 12 }, (_, n) => fix(n * 1.4, 0))
    const north = Array.from({ length: 12 }, (_, n) => fix(15.4, (n + 1) * 1.4))
    const way = [...east, ...north]
    expect(walkOutliers(way)).toEqual(way.map(() => false))
    const off = [...way.slice(0, 6), fix(8, 30), ...way.slice(6)]
    expect(walkOutliers(off)).toEqual(off.map((_, n) => n === 6))
  })
  it('are those that the device itself does not trust', () => {
    expect(walkOutliers([fix(0, 0), fix(1, 0, 60), fix(2, 0)])).toEqual([false, true, false])
  })
  it('are none of a few corners that were set down, whatever their positions tell', () => {
    const corners = [fix(0, 0), fix(100, 0), fix(100, 40), fix(0, 40), fix(0, 0)]
    const everySecond = (fixes: readonly PlaneFix[]) => fixes.map((one, n) => ({ ...one, atMs: n * 1000 }))
    const sure = (accuracyM: number | null) => corners.map((one) => ({ ...one, accuracyM }))
    for (const told of [sure(null), sure(4), sure(0.02), everySecond(sure(null)), everySecond(sure(4))])
      expect(walkOutliers(told)).toEqual(corners.map(() => false))
    // Marked three times at each, a second apart, with half a minute's walk between them.
    const thrice = corners.flatMap((one, n) => [0, 1, 2].map((k) => ({ ...one, atMs: n * 30_000 + k * 1000 })))
    expect(walkOutliers(thrice)).toEqual(thrice.map(() => false))
  })
  it('are those of a dense walk that tells its times alone, and none of one that tells nothing', () => {
    const way = Array.from({ length: 24 }, (_, n) => fix(n < 12 ? n * 1.4 : 15.4, n < 12 ? 0 : (n - 11) * 1.4, null))
    const off = way.with(6, fix(8, 30, null)).with(17, fix(-12, 8, null))
    const timed = (everyMs: number) => off.map((one, n) => ({ ...one, atMs: n * everyMs }))
    expect(walkOutliers(timed(1000))).toEqual(off.map((_, n) => n === 6 || n === 17))
    expect(walkOutliers(off)).toEqual(off.map(() => false))
    // A position a minute tells nothing of the next.
    expect(walkOutliers(timed(60_000))).toEqual(off.map(() => false))
  })
  it('are not the bends of a way that is told surer than its steps are long', () => {
    // Two centimetres, a position a second: three steps aside about a tree, by hand.
    const east = Array.from({ length: 21 }, (_, n) => [n * 1.4, n > 8 && n < 12 ? 1.2 : 0] as const)
    const way = east.map(([x, y], n) => ({ ...fix(x, y, 0.02), atMs: n * 1000 }))
    expect(walkOutliers(way)).toEqual(way.map(() => false))
  })
  it('are found in made walks: nearly all that lie far off, and hardly another', () => {
    const plane = planeAbout([15.64, 46.34])
    let [far, found, wrong, sound] = [0, 0, 0, 0]
    for (let seed = 1; seed <= 40; seed += 1) {
      const steps = makeWalk({ ...WALK, holds: false }, seededRandom(seed), plane.toLonLat)
      const walk = readWalk(
        steps.map(({ event }) => event),
        plane.toMetres,
      )
      const part = walk.parts[0]!
      if (part.is !== 'walked') throw new Error(part.is)
      const told = steps.filter(({ event }) => event.does === 'fix')
      told.forEach(({ outlier }, n) => {
        if (outlier) far += 1
        else sound += 1
        if (part.out[n] && outlier) found += 1
        if (part.out[n] && !outlier) wrong += 1
      })
    }
    expect(found / far).toBeGreaterThan(0.95)
    expect(wrong / sound).toBeLessThan(0.02)
  })
})

describe('a corner at which one stood still', () => {
  it('is the mean without what lies far off, as sure as the device says and no surer', () => {
    const held = heldCorner([fix(0, 0), fix(1, 1), fix(2, 0), fix(1, -1), fix(50, 0), fix(1, 0, 80)])!
    expect(held).toMatchObject({ at: [1, 0], accuracyM: 4, used: 4, leftOut: 2 })
    expect(held.spreadM).toBeCloseTo(1, 9)
    expect(heldCorner([fix(0, 0, 99)])).toBeNull()
  })
  it('lies in made walks within the accuracy told, 95 times in 100, in both hemispheres', () => {
    for (const origin of [
      [15.64, 46.34],
      [147.3, -42.9],
    ] as const) {
      const plane = planeAbout(origin)
      const offs: number[] = []
      for (let seed = 1; seed <= 40; seed += 1) {
        const steps = makeWalk(WALK, seededRandom(seed), plane.toLonLat)
        const { corners } = walkedShape(
          readWalk(
            steps.map(({ event }) => event),
            plane.toMetres,
          ),
          'corners',
          true,
          1,
        )
        expect(corners).toHaveLength(CORNERS.length)
        corners.forEach(([east, north], n) => {
          offs.push(Math.hypot(east - CORNERS[n]![0], north - CORNERS[n]![1]))
        })
      }
      expect(offs.filter((off) => off <= WALK.accuracyM).length / offs.length).toBeGreaterThan(0.95)
    }
  })
  it('can be taken back, and what was walked stays', () => {
    const told = (lon: number) => ({ does: 'fix' as const, lon, lat: 0, accuracyM: 3, atMs: 0 })
    const walk = readWalk(
      [
        told(0),
        { does: 'hold' },
        told(1),
        { does: 'go on' },
        told(2),
        { does: 'take back' },
        told(3),
        { does: 'hold' },
      ],
      ([x, y]) => [x, y],
    )
    expect(walk.holding).toBe(true)
    expect(walk.parts.map(({ is, fixes }) => [is, fixes.length])).toEqual([
      ['walked', 1],
      ['walked', 2],
      ['held', 0],
    ])
  })
})

describe('a simpler line', () => {
  it('keeps what lies farther off than the tolerance, by hand', () => {
    const line: Metres[] = [
      [0, 0],
      [1, 0.4],
      [2, 0],
      [3, 2],
      [4, 0],
    ]
    expect(simplifyLine(line, 0.5)).toEqual([line[0], line[2], line[3], line[4]])
    expect(simplifyLine(line, 3)).toEqual([line[0], line[4]])
  })
  it('leaves nothing that was dropped farther away, and keeps both ends: made lines', () => {
    const off = (p: Metres, [ax, ay]: Metres, [bx, by]: Metres) => {
      const t = ((p[0] - ax) * (bx - ax) + (p[1] - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)
      const k = Math.min(1, Math.max(0, t))
      return Math.hypot(p[0] - ax - k * (bx - ax), p[1] - ay - k * (by - ay))
    }
    for (let seed = 1; seed <= 30; seed += 1) {
      const next = seededRandom(seed)
      let at: Metres = [0, 0]
      const line = Array.from({ length: 200 }, () => (at = [at[0] + next() - 0.3, at[1] + next() - 0.5]))
      const simple = simplifyLine(line, 1.5)
      expect(simple[0]).toEqual(line[0])
      expect(simple.at(-1)).toEqual(line.at(-1))
      expect(simple.length).toBeLessThan(60)
      for (const p of line)
        expect(Math.min(...simple.slice(1).map((b, n) => off(p, simple[n]!, b)))).toBeLessThanOrEqual(1.5 + 1e-9)
    }
  })
  it('finds the corners of a ring walked about, wherever it was begun', () => {
    const square = (n: number): Metres => {
      const m = ((n % 80) + 80) % 80
      if (m < 20) return [m, 0]
      if (m < 40) return [20, m - 20]
      return m < 60 ? [60 - m, 20] : [0, 80 - m]
    }
    for (const start of [0, 7, 33]) {
      const ring = Array.from({ length: 80 }, (_, n) => square(n + start))
      const corners = simplifyRing(ring, 0.5)
      expect(corners.map((c) => c.join()).sort()).toEqual(['0,0', '0,20', '20,0', '20,20'])
    }
  })
})

describe('a way that was walked round', () => {
  const told = ([lon, lat]: Metres) => ({ does: 'fix' as const, lon, lat, accuracyM: 3, atMs: 0 })
  const way = (corners: readonly Metres[], stepM: number) =>
    corners.slice(1).flatMap((b, n) => {
      const a = corners[n]!
      const many = Math.round(Math.hypot(b[0] - a[0], b[1] - a[1]) / stepM)
      return Array.from({ length: many }, (_, k) =>
        told([a[0] + ((b[0] - a[0]) * k) / many, a[1] + ((b[1] - a[1]) * k) / many]),
      )
    })
  const plain = ([x, y]: readonly [number, number]): Metres => [x, y]

  it('ends at its start, also where it went on past it', () => {
    const round: Metres[] = [
      [0, 0],
      [60, 0],
      [60, 40],
      [0, 40],
      [1, 0],
      [25, 1],
    ]
    const { corners } = walkedShape(readWalk(way(round, 1.5), plain), 'way', true, 1)
    expect(corners).toHaveLength(4)
    for (const corner of round.slice(0, 4))
      expect(Math.min(...corners.map(([x, y]) => Math.hypot(x - corner[0], y - corner[1])))).toBeLessThan(3)
  })
  it('has nothing walked beside a corner that was held', () => {
    const events = [
      { does: 'hold' as const },
      told([0, 0]),
      { does: 'go on' as const },
      ...way(
        [
          [1, 1],
          [30, 0],
          [30, 30],
          [-1, 1],
        ],
        2,
      ),
    ]
    const { corners } = walkedShape(readWalk(events, plain), 'way', true, 1)
    expect(corners[0]).toEqual([0, 0])
    expect(corners.slice(1).every(([x, y]) => Math.hypot(x, y) > 3)).toBe(true)
  })
})

describe('what accuracy means', () => {
  it('is how far an area may be off, as trials have it', () => {
    const next = seededRandom(11)
    const sd = 4 / R95
    const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
    const area = (ring: readonly Metres[]) =>
      ring.reduce((sum, [x, y], n) => {
        const [x2, y2] = ring[(n + 1) % ring.length]!
        return sum + (x * y2 - x2 * y) / 2
      }, 0)
    const truth = area(CORNERS)
    const told = judgeWalked({ corners: CORNERS, accuracyM: 4 }, true)
    let within = 0
    for (let n = 0; n < 4000; n += 1) {
      const walked = CORNERS.map(([x, y]): Metres => [x + sd * normal(), y + sd * normal()])
      if (Math.abs(area(walked) - truth) <= told.areaOffM2!) within += 1
    }
    expect(within / 4000).toBeGreaterThan(0.94)
    expect(within / 4000).toBeLessThan(0.96)
  })
  it('is good enough for a large field, rough for a small one, too poor for a bed', () => {
    const oblong = (long: number, wide: number): Metres[] => [
      [0, 0],
      [long, 0],
      [long, wide],
      [0, wide],
    ]
    expect(judgeWalked({ corners: oblong(200, 150), accuracyM: 4 }, true).fit).toBe('good enough')
    expect(judgeWalked({ corners: oblong(40, 25), accuracyM: 4 }, true).fit).toBe('rough')
    expect(judgeWalked({ corners: oblong(30, 1.2), accuracyM: 4 }, true).fit).toBe('too poor')
    expect(judgeWalked({ corners: oblong(30, 25), accuracyM: null }, true).fit).toBe('rough')
    expect(
      judgeWalked(
        {
          corners: [
            [0, 0],
            [8, 0],
          ],
          accuracyM: 4,
        },
        false,
      ).fit,
    ).toBe('too poor')
    expect(
      judgeWalked(
        {
          corners: [
            [0, 0],
            [80, 0],
          ],
          accuracyM: 4,
        },
        false,
      ).fit,
    ).toBe('rough')
  })
})
