import { describe, expect, it } from 'vitest'
import { krige } from '../../../geo/yield/points/kriging.ts'
import { nearestPoints, pointBuckets } from '../../../geo/yield/points/nearestPoints.ts'
import { pointSurface } from '../../../geo/yield/points/pointSurface.ts'
import type { ValuedPoint } from '../../../geo/yield/points/valuedPoint.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

const scattered = (count: number, seed: number, of: (x: number, y: number) => number): ValuedPoint[] => {
  const random = seededRandom(seed)
  return Array.from({ length: count }, () => {
    const [x, y] = [100 * random(), 30 * random()]
    return { x, y, value: of(x, y) }
  })
}

describe('nearest points', () => {
  it('are those of a plain sort by distance', () => {
    const points = scattered(400, 3, () => 0)
    const buckets = pointBuckets(points)
    const random = seededRandom(4)
    for (let k = 0; k < 60; k += 1) {
      const [x, y] = [160 * random() - 30, 90 * random() - 30]
      const plain = points
        .map((point, at) => ({ at, square: (point.x - x) ** 2 + (point.y - y) ** 2 }))
        .sort((a, b) => a.square - b.square || a.at - b.at)
        .slice(0, 40)
      expect(nearestPoints(buckets, x, y, 40)).toEqual(plain.map(({ at }) => at))
    }
  })
})

describe('a surface through points', () => {
  const wave = (x: number, y: number): number => 1 + 0.3 * Math.sin(x / 12) * Math.cos(y / 9)

  it('holds to its points and is less sure away from them', async () => {
    const points = scattered(120, 5, wave)
    const places = [points[0]!, { x: 50, y: 15 }, { x: 400, y: 400 }]
    const kriged = (await pointSurface(points, places, 'kriging'))!
    expect(kriged.values[0]).toBeCloseTo(points[0]!.value, 12)
    expect(kriged.errors![0]).toBe(0)
    expect(Math.abs(kriged.values[1]! - wave(50, 15))).toBeLessThan(0.05)
    expect(kriged.errors![2]!).toBeGreaterThan(kriged.errors![1]!)
    const inverse = (await pointSurface(points, places, 'inverse distance'))!
    expect(inverse.errors).toBeNull()
    expect(inverse.values[0]).toBe(points[0]!.value)
    // On a smooth surface the model knows more than distances alone.
    expect(kriged.missedBy).toBeLessThan(inverse.missedBy)
  })

  it('takes two values of one place as one, and tells nothing of too few points or of none that vary', async () => {
    const points = scattered(60, 6, wave)
    const twin = { ...points[0]!, value: points[0]!.value + 1 }
    const told = (await pointSurface([...points, twin], [points[0]!], 'kriging'))!
    expect(told.points).toBe(60)
    expect(told.values[0]).toBeCloseTo(points[0]!.value + 0.5, 12)
    expect(await pointSurface(points.slice(0, 29), [points[0]!], 'inverse distance')).toBeNull()
    expect(
      await pointSurface(
        scattered(60, 6, () => 1),
        [{ x: 0, y: 0 }],
        'kriging',
      ),
    ).toBeNull()
  })

  it('gives the mean where nothing is alike, with the variance of a mean and one more', () => {
    // By hand: C = s·I, c = 0, so value = mean and variance = s + s/n.
    const points = [1, 2, 6].map((value, k) => ({ x: 10 * k, y: 0, value }))
    const at = krige(points, { shape: 'spherical', nugget: 2, psill: 1, rangeM: 1 }, 5, 50)!
    expect(at.value).toBeCloseTo(3, 12)
    expect(at.variance).toBeCloseTo(3 + 3 / 3, 12)
  })
})
