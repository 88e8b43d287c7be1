import { execFileSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import type { ControlPoint, FitKind } from '../../geo/photo/controlPoints.ts'
import { fitPhoto, type PhotoFit } from '../../geo/photo/fitPhoto.ts'
import { type Homography, mapped } from '../../geo/photo/homography.ts'
import { isPhotoFault } from '../../geo/photo/placement.ts'

const SIZE = { widthPx: 4000, heightPx: 3000 }

/** Numbers from 0 to 1 that are the same on every run (mulberry32). */
const seeded = (seed: number) => () => {
  seed = (seed + 0x6d2b79f5) | 0
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed)
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
}

/** A picture of some hundred metres, laid far from the plane's origin, whose points are off by up to half a metre either way. */
const made = (seed: number, kind: FitKind, count: number): ControlPoint[] => {
  const random = seeded(seed)
  const turn = 2 * Math.PI * random()
  const pixelM = 0.02 + 0.05 * random()
  const [a, b] = [pixelM * Math.cos(turn), pixelM * Math.sin(turn)]
  const shear = kind === 'similarity' ? 0 : 0.2 * random() * pixelM
  const slant = kind === 'projective' ? 1 : 0
  const truth: Homography = [
    a + shear,
    b,
    1500 * (random() - 0.5),
    b,
    -a + shear / 3,
    1500 * (random() - 0.5),
    1e-4 * random() * slant,
    1e-4 * random() * slant,
    1,
  ]
  return Array.from({ length: count }, () => {
    const spot = [Math.round(SIZE.widthPx * random()), Math.round(SIZE.heightPx * random())] as const
    const [x, y] = mapped(truth, spot)
    const off = () => Math.round(1000 * (random() - 0.5)) / 1000
    return { spot, ground: [Math.round(1000 * x) / 1000 + off(), Math.round(1000 * y) / 1000 + off()] }
  })
}

const fitted = (kind: FitKind, points: readonly ControlPoint[]): PhotoFit => {
  const fit = fitPhoto({ ...SIZE, kind, points, tapes: [], guess: null })
  if (isPhotoFault(fit)) throw new Error(fit.detail)
  return fit
}

/** Where R puts the points of projective6. */
const BY_R = [
  [132.86984113070974, 580.6224377488268],
  [62.77058851671657, 530.4491329430431],
  [53.779425827450886, 668.839623785477],
  [46.310227508109875, 621.7840643245198],
  [78.17449214831605, 566.9112379025121],
  [31.04642486869686, 549.3005032956212],
]

const KINDS = ['similarity', 'affine', 'projective'] as const
const CASES = KINDS.flatMap((kind) =>
  [5, 6, 9, 20].map((count, i) => ({ name: `${kind}${count}`, kind, points: made(100 + 7 * i, kind, count) })),
)

const hasR = (() => {
  try {
    execFileSync('Rscript', ['--version'], { stdio: 'ignore' })
    return true
  } catch {
    console.info('Rscript is not there (Debian: r-base-core): fits are not compared with R')
    return false
  }
})()

/** The sum of a fraction's numerator and denominator apart: exact numbers. */
type Fraction = readonly [bigint, bigint]
const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : gcd(b, a % b))
const made1 = (n: bigint, d: bigint): Fraction => {
  const g = gcd(n, d) * (d < 0n ? -1n : 1n)
  return [n / g, d / g]
}
const exact = (value: number): Fraction => made1(BigInt(Math.round(value * 1000)), 1000n)
const times = ([a, b]: Fraction, [c, d]: Fraction) => made1(a * c, b * d)
const less = ([a, b]: Fraction, [c, d]: Fraction) => made1(a * d - c * b, b * d)
const plus = ([a, b]: Fraction, [c, d]: Fraction) => made1(a * d + c * b, b * d)
const over = (a: Fraction, [c, d]: Fraction) => times(a, [d, c])
const zero: Fraction = [0n, 1n]
const toNumber = ([n, d]: Fraction): number => {
  const whole = n / d
  return Number(whole) + Number(((n - whole * d) * 10n ** 25n) / d) / 1e25
}

/** Least squares by normal equations in exact fractions (Gauss's elimination, no rounding at all). */
const solveExactly = (rows: readonly (readonly Fraction[])[], values: readonly Fraction[]): Fraction[] => {
  const n = rows[0]!.length
  const sum = (terms: Fraction[]) => terms.reduce(plus, zero)
  const a = Array.from({ length: n }, (_, i) => [
    ...Array.from({ length: n }, (_, j) => sum(rows.map((row) => times(row[i]!, row[j]!)))),
    sum(rows.map((row, k) => times(row[i]!, values[k]!))),
  ])
  for (let k = 0; k < n; k += 1)
    for (let i = 0; i < n; i += 1)
      if (i !== k) {
        const factor = over(a[i]![k]!, a[k]![k]!)
        a[i] = a[i]!.map((value, j) => less(value, times(factor, a[k]![j]!)))
      }
  return a.map((row, i) => over(row[n]!, row[i]!))
}

/** Where an exact fit of points puts spots. */
const putExactly = (
  kind: 'similarity' | 'affine',
  points: readonly ControlPoint[],
  spots: readonly (readonly [number, number])[],
): [number, number][] => {
  const one: Fraction = [1n, 1n]
  const minus = (f: Fraction): Fraction => less(zero, f)
  const east = ([u, v]: readonly [Fraction, Fraction]) => (kind === 'affine' ? [u, v, one] : [u, v, one, zero])
  const north = ([u, v]: readonly [Fraction, Fraction]) => (kind === 'affine' ? [u, v, one] : [minus(v), u, zero, one])
  const pair = ([u, v]: readonly [number, number]): readonly [Fraction, Fraction] => [exact(u), exact(v)]
  const rows = (row: typeof east) => points.map(({ spot }) => row(pair(spot)))
  const grounds = (k: 0 | 1) => points.map(({ ground }) => exact(ground[k]))
  const [x, y] =
    kind === 'affine'
      ? [solveExactly(rows(east), grounds(0)), solveExactly(rows(north), grounds(1))]
      : Array(2).fill(solveExactly([...rows(east), ...rows(north)], [...grounds(0), ...grounds(1)]))
  const dot = (row: readonly Fraction[], h: readonly Fraction[]) =>
    toNumber(row.map((f, i) => times(f, h[i]!)).reduce(plus, zero))
  return spots.map(pair).map((spot) => [dot(east(spot), x!), dot(north(spot), y!)])
}

/** Where R (photoFit.R) puts every spot of each case; a case is fitted to its points but the one left out. */
const putByR = (cases: readonly { kind: FitKind; points: readonly ControlPoint[]; without: number }[]) => {
  const lines = cases.flatMap(({ kind, points, without }, c) =>
    points.map(({ spot: [u, v], ground }, i) =>
      [c, kind, i === without ? 0 : 1, u / 1000, v / 1000, ...ground].join(','),
    ),
  )
  const script = new URL('./photoFit.R', import.meta.url).pathname
  const input = `case,kind,used,u,v,x,y\n${lines.join('\n')}\n`
  const said = execFileSync('Rscript', ['--vanilla', script], { input, encoding: 'utf8' }).trim()
  const put = said.split('\n').map((line) => line.split(',').map(Number))
  return cases.map((_, c) => put.filter(([found]) => found === c).map(([, x, y]) => [x!, y!] as const))
}

const agree = (points: readonly ControlPoint[], fit: PhotoFit, put: readonly (readonly number[])[]) => {
  for (const [i, [x, y]] of put.entries()) {
    const [u, v] = mapped(fit.transform, points[i]!.spot)
    expect(Math.hypot(u - x!, v - y!)).toBeLessThan(1e-9)
    const [east, north] = points[i]!.ground
    expect(Math.abs(fit.points[i]!.eastM - (x! - east))).toBeLessThan(1e-9)
    expect(Math.abs(fit.points[i]!.northM - (y! - north))).toBeLessThan(1e-9)
    expect(Math.abs(fit.points[i]!.offM - Math.hypot(x! - east, y! - north))).toBeLessThan(1e-9)
  }
  // RMSE = √(Σ(dx² + dy²) / n), as control-point tools tell it (C).
  const squares = put.map(([x, y], i) => (x! - points[i]!.ground[0]) ** 2 + (y! - points[i]!.ground[1]) ** 2)
  expect(Math.abs(fit.rmseM! - Math.sqrt(squares.reduce((a, b) => a + b, 0) / put.length))).toBeLessThan(1e-9)
}

describe('fits of control points', () => {
  it.each(CASES.filter(({ kind }) => kind !== 'projective'))(
    'puts the points of $name where exact fractions put them, to a nanometre',
    ({ kind, points }) => {
      const exactly = kind as 'affine' | 'similarity'
      const fit = fitted(kind, points)
      agree(
        points,
        fit,
        putExactly(
          exactly,
          points,
          points.map(({ spot }) => spot),
        ),
      )
      // Each point left out is judged by the others alone.
      for (const [i, { spot, ground }] of points.slice(0, 6).entries()) {
        const [at] = putExactly(
          exactly,
          points.filter((_, j) => j !== i),
          [spot],
        )
        expect(Math.abs(fit.points[i]!.leftOutM! - Math.hypot(at![0] - ground[0], at![1] - ground[1]))).toBeLessThan(
          1e-9,
        )
      }
    },
  )

  it.skipIf(!hasR)('agree with R (lm, nls) to a nanometre: places, residuals, RMSE and points left out', () => {
    const whole = CASES.map(({ kind, points }) => ({ kind, points, without: -1 }))
    const left = CASES.filter(({ points }) => points.length === 9).flatMap(({ kind, points }) =>
      points.map((_, without) => ({ kind, points, without })),
    )
    const put = putByR([...whole, ...left])
    for (const [c, { kind, points }] of whole.entries()) agree(points, fitted(kind, points), put[c]!)
    for (const [c, { kind, points, without }] of left.entries()) {
      const [x, y] = put[whole.length + c]![without]!
      const [east, north] = points[without]!.ground
      expect(Math.abs(fitted(kind, points).points[without]!.leftOutM! - Math.hypot(x - east, y - north))).toBeLessThan(
        1e-9,
      )
    }
  })

  it('put a slanted picture’s points where R puts them', () => {
    // Points of projective6; values by photoFit.R, nls() of R 4.2.2 (X).
    const { points } = CASES.find(({ name }) => name === 'projective6')!
    agree(points, fitted('projective', points), BY_R)
  })
})
