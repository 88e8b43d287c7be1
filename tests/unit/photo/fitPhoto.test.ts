import { describe, expect, it } from 'vitest'
import type { ControlPoint, FitKind, Guess, Tape } from '../../../geo/photo/controlPoints.ts'
import { fitPhoto, type PhotoFit } from '../../../geo/photo/fitPhoto.ts'
import { type Homography, mapped, type Spot } from '../../../geo/photo/homography.ts'
import { isPhotoFault } from '../../../geo/photo/placement.ts'

const SIZE = { widthPx: 4000, heightPx: 3000 }
const told = (
  kind: FitKind,
  points: readonly ControlPoint[],
  tapes: readonly Tape[] = [],
  guess: Guess | null = null,
) => fitPhoto({ ...SIZE, kind, points, tapes, guess })
const fitted = (...args: Parameters<typeof told>): PhotoFit => {
  const found = told(...args)
  if (isPhotoFault(found)) throw new Error(found.detail)
  return found
}
const why = (...args: Parameters<typeof told>): string => {
  const found = told(...args)
  return isPhotoFault(found) ? found.detail : `fitted: ${found.transform}`
}
/** Points at spots where a known map puts them, each off by what is given. */
const under = (map: Homography, spots: readonly Spot[], off: readonly (readonly [number, number])[] = []) =>
  spots.map((spot, i): ControlPoint => {
    const [x, y] = mapped(map, spot)
    return { spot, ground: [x + (off[i]?.[0] ?? 0), y + (off[i]?.[1] ?? 0)] }
  })

/** North up, 5 cm a pixel; one seen at a slant besides. */
const UPRIGHT: Homography = [0.05, 0, 100, 0, -0.05, 200, 0, 0, 1]
const SLANTED: Homography = [0.05, 0.004, 100, 0.002, -0.05, 200, 1e-5, 8e-5, 1]
const CORNERS: readonly Spot[] = [
  [200, 150],
  [3800, 200],
  [3700, 2900],
  [300, 2800],
]
const INNER: readonly Spot[] = [
  [2000, 1500],
  [1200, 2200],
  [2900, 700],
  [700, 900],
]

describe('a picture by control points', () => {
  it.each([
    ['similarity', UPRIGHT, 2],
    ['affine', [0.05, 0.01, 100, 0.004, -0.06, 200, 0, 0, 1], 3],
    ['projective', SLANTED, 4],
  ] as const)(
    'lies exactly where the fewest points of a %s fit put it, and says that nothing checks them',
    (kind, map, count) => {
      const found = fitted(kind, under(map as unknown as Homography, CORNERS.slice(0, count)))
      for (const spot of INNER) {
        const [x, y] = mapped(map as unknown as Homography, spot)
        const [u, v] = mapped(found.transform, spot)
        expect(Math.hypot(u - x, v - y)).toBeLessThan(1e-9)
      }
      expect(found.rmseM).toBeLessThan(1e-9)
      expect(found.isChecked).toBe(false)
      expect(found.worst).toBeNull()
      expect(found.points.map(({ leftOutM }) => leftOutM)).toEqual(Array(count).fill(null))
    },
  )

  it.each([
    ['similarity', UPRIGHT],
    ['affine', UPRIGHT],
    ['projective', SLANTED],
  ] as const)('names the one bad point of a %s fit, wherever it is among good ones', (kind, map) => {
    const spots = [...CORNERS, ...INNER]
    for (let bad = 0; bad < spots.length; bad += 1) {
      const off = spots.map(
        (_, i) => (i === bad ? [3, -4] : [0.02 * (i % 3) - 0.02, 0.015 * (i % 2)]) as [number, number],
      )
      const found = fitted(kind, under(map, spots, off))
      expect(found.worst).toBe(bad)
      expect(found.withoutWorstM).toBeLessThan(0.03)
      // Judged by the others it is some 5 m off (3, 4, 5), whatever share of that the fit had given in.
      expect(found.points[bad]!.leftOutM).toBeGreaterThan(4.5)
      expect(found.points[bad]!.leftOutM).toBeLessThan(5.6)
      expect(found.points[bad]!.leftOutM!).toBeGreaterThan(found.points[bad]!.offM)
    }
  })

  it('tells in words which points are too few, coincide, or lie on one line', () => {
    const [a, b, c, d] = under(UPRIGHT, CORNERS) as [ControlPoint, ControlPoint, ControlPoint, ControlPoint]
    expect(why('similarity', [])).toMatch(/wants 2 points or a taped distance; there are none/)
    expect(why('similarity', [a])).toMatch(/there is 1/)
    expect(why('affine', [a, b])).toBe('An affine fit wants 3 points; there are 2.')
    expect(why('projective', [a, b, c])).toBe('A perspective fit wants 4 points; there are 3.')
    expect(why('similarity', [a, { ...b, spot: a.spot }])).toMatch(/^Points 1 and 2 have the same spot in the picture/)
    expect(why('affine', [a, b, { ...c, ground: b.ground }])).toMatch(
      /^Points 2 and 3 have the same place on the ground/,
    )
    const onLine = under(UPRIGHT, [
      [0, 0],
      [1000, 1000],
      [2000, 2001],
      [3000, 3000],
    ])
    expect(why('affine', onLine)).toMatch(/on one line in the picture/)
    expect(why('projective', onLine)).toMatch(/on one line in the picture/)
    expect(why('projective', [...onLine.slice(0, 3), b])).toMatch(/All points but one lie on one line in the picture/)
    const straightened = [a, b, c].map(({ spot }, i): ControlPoint => ({ spot, ground: [i * 10, i * 20] }))
    expect(why('affine', straightened)).toMatch(/on one line on the ground/)
    expect(isPhotoFault(told('projective', [a, b, c, d]))).toBe(false)
  })

  it('refuses a perspective whose horizon crosses the picture, and a picture turned over', () => {
    // w is 1 − 0.0004·row: zero at row 2500 of 3000.
    const horizon: Homography = [0.05, 0, 0, 0, -0.05, 0, 0, -0.0004, 1]
    const above = under(horizon, [
      [500, 200],
      [3500, 300],
      [3000, 1500],
      [800, 1700],
      [2000, 900],
    ])
    expect(why('projective', above)).toMatch(/horizon would run through the picture/)
    const mirrored: Homography = [0.05, 0, 0, 0, 0.05, 0, 0, 0, 1]
    expect(why('affine', under(mirrored, CORNERS))).toMatch(/turn the picture over like a mirror/)
    expect(why('projective', under(mirrored, CORNERS))).toMatch(/mirror/)
  })
})

describe('a taped distance', () => {
  const tape = (from: Spot, to: Spot, lengthM: number): Tape => ({ from, to, lengthM })

  it('sets a similarity’s scale by itself, whatever the points say, and points turn and shift', () => {
    // Two points 100 m apart in the picture's truth, told 102 m apart; the tape says 1000 px are 50 m.
    const points: ControlPoint[] = [
      { spot: [1000, 1000], ground: [-1, 0] },
      { spot: [3000, 1000], ground: [101, 0] },
    ]
    const found = fitted('similarity', points, [tape([0, 0], [0, 1000], 50)])
    expect(found.transform[0]).toBeCloseTo(0.05, 12)
    expect(found.tapesOffM[0]).toBeCloseTo(0, 12)
    // The metre too much at either end stays, by hand.
    expect(found.points.map(({ eastM }) => eastM)).toEqual([expect.closeTo(1, 9), expect.closeTo(-1, 9)])
    expect(found.rmseM).toBeCloseTo(1, 9)
    expect(found.isChecked).toBe(true)
  })

  it('of several kinds is weighed by least squares of the lengths', () => {
    const tapes = [tape([0, 0], [1000, 0], 51), tape([0, 0], [0, 2000], 99)]
    const found = fitted('similarity', under(UPRIGHT, CORNERS.slice(0, 2)), tapes)
    // (51·1000 + 99·2000) / (1000² + 2000²), by hand.
    const pixelM = 249_000 / 5_000_000
    expect(Math.hypot(found.transform[0], found.transform[3])).toBeCloseTo(pixelM, 12)
    expect(found.tapesOffM).toEqual([expect.closeTo(1000 * pixelM - 51, 9), expect.closeTo(2000 * pixelM - 99, 9)])
  })

  it('with one point, or none, leaves turn and place to the guess', () => {
    const guess: Guess = { middle: [10, 20], headingDeg: 90, pixelM: 1 }
    const alone = fitted('similarity', [], [tape([0, 0], [300, 400], 25)], guess)
    // 500 px are 25 m. The top looks east, so columns run south and rows west.
    expect(mapped(alone.transform, [2000, 1500])).toEqual([expect.closeTo(10, 9), expect.closeTo(20, 9)])
    expect(mapped(alone.transform, [2000, 0])).toEqual([expect.closeTo(10 + 75, 9), expect.closeTo(20, 9)])
    expect(mapped(alone.transform, [4000, 1500])).toEqual([expect.closeTo(10, 9), expect.closeTo(20 - 100, 9)])
    const held = fitted('similarity', [{ spot: [0, 0], ground: [5, 5] }], [tape([0, 0], [300, 400], 25)], guess)
    expect(mapped(held.transform, [0, 0])).toEqual([expect.closeTo(5, 9), expect.closeTo(5, 9)])
    expect(mapped(held.transform, [0, 100])).toEqual([expect.closeTo(0, 9), expect.closeTo(5, 9)])
    expect(isPhotoFault(told('similarity', [], [], { ...guess, pixelM: null }))).toBe(true)
    expect(why('similarity', [], [tape([5, 5], [5, 5], 25)], guess)).toMatch(/two spots that lie apart/)
  })

  it('has no weight in other fits, and tells how far it is off', () => {
    const points = under(UPRIGHT, CORNERS)
    const found = fitted('affine', points, [tape([0, 0], [1000, 0], 51)])
    expect(found.transform).toEqual(fitted('affine', points).transform)
    expect(found.tapesOffM[0]).toBeCloseTo(-1, 9)
  })
})
