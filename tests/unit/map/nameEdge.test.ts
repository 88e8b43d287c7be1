import type { Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { stripHead, upperEdge } from '../../../src/map/nameEdge.ts'

/** A rectangle turned counterclockwise about its south-west corner, near the equator where a degree is as long both ways. */
function rectangle(long: number, wide: number, deg: number): Polygon {
  const a = (deg * Math.PI) / 180
  const place = (x: number, y: number) => [
    10 + (x * Math.cos(a) - y * Math.sin(a)) / 1e5,
    (x * Math.sin(a) + y * Math.cos(a)) / 1e5,
  ]
  return {
    type: 'Polygon',
    coordinates: [[place(0, 0), place(long, 0), place(long, wide), place(0, wide), place(0, 0)]],
  }
}

describe("a field's name", () => {
  it('stands at the western end of the upper edge and reads along it', () => {
    const place = upperEdge(rectangle(80, 40, 10))!
    const [, , , corner] = rectangle(80, 40, 10).coordinates[0]!
    expect(place.at).toEqual(corner)
    expect(place.turnDeg).toBeCloseTo(-10, 6)
  })
  it('is never upside down', () => {
    for (let deg = 0; deg < 360; deg += 15) {
      const { turnDeg } = upperEdge(rectangle(80, 40, deg))!
      expect(Math.abs(turnDeg)).toBeLessThanOrEqual(90)
    }
  })
})

describe("a bed's name", () => {
  it('stands at the middle of the head of the strip', () => {
    const place = stripHead(rectangle(30, 1.2, 0))!
    expect(place.at[0]).toBeCloseTo(10, 9)
    expect(place.at[1]).toBeCloseTo(0.6 / 1e5, 9)
    expect(place.turnDeg).toBeCloseTo(0, 6)
  })
  it('reads upward in a bed that runs north', () => {
    const place = stripHead(rectangle(30, 1.2, 90))!
    expect(place.turnDeg).toBeCloseTo(-90, 5)
    expect(place.at[1]).toBeCloseTo(0, 8)
  })
  it('has no place on a line', () => {
    expect(
      stripHead({
        type: 'LineString',
        coordinates: [
          [0, 0],
          [1, 1],
        ],
      }),
    ).toBeNull()
  })
})
