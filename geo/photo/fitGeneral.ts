import type { ControlPoint } from './controlPoints.ts'
import { after, type Homography, mapped } from './homography.ts'
import { leastSquares } from './leastSquares.ts'

type Pair = readonly [number, number]

/** Shift and scale that bring places about zero with a mean square distance of 2 (Hartley 1997), and the way back. */
const normalising = (at: readonly Pair[]): { to: Homography; back: Homography; of: Pair[] } => {
  const mean = (k: 0 | 1) => at.reduce((sum, p) => sum + p[k], 0) / at.length
  const [mx, my] = [mean(0), mean(1)]
  const square = at.reduce((sum, [x, y]) => sum + (x - mx) ** 2 + (y - my) ** 2, 0) / at.length
  const s = Math.sqrt(2 / square)
  return {
    to: [s, 0, -s * mx, 0, s, -s * my, 0, 0, 1],
    back: [1 / s, 0, mx, 0, 1 / s, my, 0, 0, 1],
    of: at.map(([x, y]) => [s * (x - mx), s * (y - my)]),
  }
}

const withNormalised = (
  points: readonly ControlPoint[],
  solve: (spots: readonly Pair[], grounds: readonly Pair[]) => Homography | null,
): Homography | null => {
  const spots = normalising(points.map(({ spot }) => spot))
  const grounds = normalising(points.map(({ ground }) => ground))
  const found = solve(spots.of, grounds.of)
  return found && after(grounds.back, after(found, spots.to))
}

/** The affine map with the least sum of squared distances on the ground; null where the points do not determine it. */
export const fitAffine = (points: readonly ControlPoint[]): Homography | null =>
  withNormalised(points, (spots, grounds) => {
    const rows = spots.map(([u, v]) => [u, v, 1])
    const x = leastSquares(
      rows,
      grounds.map((g) => g[0]),
    )
    const y = leastSquares(
      rows,
      grounds.map((g) => g[1]),
    )
    return x && y && [x[0]!, x[1]!, x[2]!, y[0]!, y[1]!, y[2]!, 0, 0, 1]
  })

/**
 * The projective map with the least sum of squared distances on the ground: begun with the direct linear transform
 * (Hartley and Zisserman, Multiple View Geometry, section 4.1), whose own sum is not in metres, then Gauss and Newton's
 * steps, shortened after Levenberg and Marquardt while they do not better the sum. Null where it does not settle.
 */
export const fitProjective = (points: readonly ControlPoint[]): Homography | null =>
  withNormalised(points, (spots, grounds) => {
    const rows: number[][] = []
    const values: number[] = []
    spots.forEach(([u, v], i) => {
      const [x, y] = grounds[i]!
      rows.push([u, v, 1, 0, 0, 0, -x * u, -x * v], [0, 0, 0, u, v, 1, -y * u, -y * v])
      values.push(x, y)
    })
    const begun = leastSquares(rows, values)
    return begun && settled(begun, spots, grounds)
  })

const mostSteps = 200
/** Unknowns are about one in size. A step below `near` is left undamped; the sum of squares can't tell such steps apart. */
const near = 1e-5
const nothing = 1e-16

const asMap = (h: readonly number[]): Homography => [...h, 1] as unknown as Homography

const sumOfSquares = (h: readonly number[], spots: readonly Pair[], grounds: readonly Pair[]): number =>
  spots.reduce((sum, spot, i) => {
    const [x, y] = mapped(asMap(h), spot)
    return sum + (x - grounds[i]![0]) ** 2 + (y - grounds[i]![1]) ** 2
  }, 0)

const sizeOf = (step: readonly number[]): number => Math.max(...step.map(Math.abs))

const settled = (begun: number[], spots: readonly Pair[], grounds: readonly Pair[]): Homography | null => {
  let h = begun
  let sum = sumOfSquares(h, spots, grounds)
  let damping = 0
  for (let count = 0; count < mostSteps; count += 1) {
    const step = stepFrom(h, spots, grounds, damping)
    if (!step) return null
    if (damping === 0 && sizeOf(step) < near) return polished(h, step, spots, grounds)
    const next = h.map((value, k) => value + step[k]!)
    const nextSum = sumOfSquares(next, spots, grounds)
    if (nextSum < sum) {
      h = next
      sum = nextSum
      damping = damping < 1e-7 ? 0 : damping / 10
    } else if (damping > 1e6) return null
    else damping = damping === 0 ? 1e-6 : damping * 10
  }
  return null
}

/** Full steps for as long as they grow smaller: as far as numbers of this length can tell. */
const polished = (
  begun: readonly number[],
  first: readonly number[],
  spots: readonly Pair[],
  grounds: readonly Pair[],
): Homography => {
  let h = begun
  let step = first
  for (let count = 0; count < mostSteps && sizeOf(step) > nothing; count += 1) {
    h = h.map((value, k) => value + step[k]!)
    const next = stepFrom(h, spots, grounds, 0)
    if (!next || sizeOf(next) >= sizeOf(step)) break
    step = next
  }
  return asMap(h)
}

const stepFrom = (
  h: readonly number[],
  spots: readonly Pair[],
  grounds: readonly Pair[],
  damping: number,
): number[] | null => {
  const rows: number[][] = []
  const values: number[] = []
  spots.forEach(([u, v], i) => {
    const w = h[6]! * u + h[7]! * v + 1
    const [x, y] = mapped(asMap(h), [u, v])
    const [p, q, o] = [u / w, v / w, 1 / w]
    rows.push([p, q, o, 0, 0, 0, -x * p, -x * q], [0, 0, 0, p, q, o, -y * p, -y * q])
    values.push(grounds[i]![0] - x, grounds[i]![1] - y)
  })
  if (damping > 0)
    for (let k = 0; k < 8; k += 1) {
      rows.push(Array.from({ length: 8 }, (_, j) => (j === k ? Math.sqrt(damping) : 0)))
      values.push(0)
    }
  return leastSquares(rows, values)
}
