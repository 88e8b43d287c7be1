import type { ValuedPoint } from './valuedPoint.ts'

/** Mean of points' values weighted by one over the square of their distance; at a point its own value (Shepard 1968). */
export function inverseDistance(points: readonly ValuedPoint[], x: number, y: number): number {
  let [weights, sum] = [0, 0]
  for (const point of points) {
    const square = (point.x - x) ** 2 + (point.y - y) ** 2
    if (square === 0) return point.value
    weights += 1 / square
    sum += point.value / square
  }
  return sum / weights
}
