import { booleanPointInPolygon } from '@turf/turf'
import type { Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { lengthM, number, openDemo, type Placed } from './opened.ts'

const demo = openDemo()
const ring = (feature: Placed<Polygon>) => feature.geometry.coordinates[0]!.map(demo.metres)
const inPlane = (feature: Placed<Polygon>): Polygon => ({ type: 'Polygon', coordinates: [ring(feature)] })
const fieldOf = new Map(demo.fields.map((field) => [field.properties.id, inPlane(field)]))
const bedOf = new Map(demo.beds.map((bed) => [bed.properties.id, bed]))
const rowOf = new Map(demo.rows.map((row) => [row.properties.id, row]))

// Lengths here are in proj4's transverse Mercator about the farm's origin, which shares nothing with the demo's own plane.
describe('the places of the demo farm', () => {
  it('have closed rings, counter-clockwise (RFC 7946, 3.1.6)', () => {
    const areas = demo.structures.filter((one): one is Placed<Polygon> => one.geometry.type === 'Polygon')
    for (const feature of [...demo.fields, ...demo.beds, ...areas]) {
      const corners = feature.geometry.coordinates[0]!
      expect(corners.length).toBeGreaterThanOrEqual(4)
      expect(corners.at(-1)).toEqual(corners[0])
      const points = ring(feature)
      const twice = points.slice(1).reduce((sum, [x, y], i) => sum + points[i]![0] * y - x * points[i]![1], 0)
      expect(twice, feature.properties.id).toBeGreaterThan(0)
    }
  })

  it('keep every bed within its field and every row within its bed', () => {
    for (const bed of demo.beds) {
      const field = fieldOf.get(String(bed.properties.field))!
      for (const corner of ring(bed)) expect(booleanPointInPolygon(corner, field), bed.properties.id).toBe(true)
    }
    for (const row of demo.rows) {
      const bed = inPlane(bedOf.get(String(row.properties.bed))!)
      for (const end of row.geometry.coordinates)
        expect(booleanPointInPolygon(demo.metres(end), bed), row.properties.id).toBe(true)
    }
  })

  it('lay beds of a market garden’s size, as described, none over another', () => {
    const boxes = demo.beds.map((bed) => {
      const [a, b, c] = ring(bed) as [[number, number], [number, number], [number, number]]
      return { bed, lengthM: lengthM([a, b]), widthM: lengthM([b, c]) }
    })
    for (const { lengthM: long, widthM: wide } of boxes) {
      expect(long).toBeGreaterThanOrEqual(15)
      expect(long).toBeLessThanOrEqual(40)
      expect(
        [0.9, 1.1, 1.2].some((told) => Math.abs(told - wide) < 5e-4),
        String(wide),
      ).toBe(true)
    }
    const first = boxes.find(({ bed }) => bed.properties.name === 'O1')
    expect(first?.lengthM).toBeCloseTo(35, 3)
    for (const { bed } of boxes) {
      const inside = boxes.filter(
        (other) => other.bed !== bed && ring(other.bed).some((corner) => booleanPointInPolygon(corner, inPlane(bed))),
      )
      expect(inside.map((other) => other.bed.properties.name)).toEqual([])
    }
  })

  it('keep every stretch within its row', () => {
    for (const planting of demo.plantings) {
      if (!planting.row) continue
      const long = lengthM(rowOf.get(planting.row)!.geometry.coordinates.map(demo.metres))
      expect(number(planting.from_m)).toBeGreaterThanOrEqual(0)
      expect(number(planting.to_m)).toBeGreaterThan(number(planting.from_m))
      expect(number(planting.to_m), planting.id).toBeLessThanOrEqual(long)
    }
  })

  it('name each row’s side by where it lies in its bed', () => {
    for (const row of demo.rows) {
      const corners = ring(bedOf.get(String(row.properties.bed))!).slice(0, 4)
      const [ex, ey] = [0, 1].map((j) => corners.reduce((sum, corner) => sum + corner[j]! / 4, 0)) as [number, number]
      const ends = row.geometry.coordinates.map(demo.metres)
      const [dx, dy] = [(ends[0]![0] + ends[1]![0]) / 2 - ex, (ends[0]![1] + ends[1]![1]) / 2 - ey]
      const side =
        Math.hypot(dx, dy) < 0.01
          ? 'middle'
          : Math.abs(dy) > Math.abs(dx)
            ? dy > 0
              ? 'north edge'
              : 'south edge'
            : dx > 0
              ? 'east edge'
              : 'west edge'
      expect(row.properties.side, row.properties.id).toBe(side)
    }
  })

  it('hold most climbing rows by a support within 0.6 m on their last summer’s day, and leave some unheld', () => {
    const day = '2026-08-01'
    const climbs = new Set(demo.crops.filter((crop) => crop.climbs === 'yes').map((crop) => crop.id))
    const cropOf = new Map(demo.varieties.map((variety) => [variety.id, variety.crop]))
    const standing = demo.supports
      .filter(({ properties: run }) => String(run.put_up) <= day && !(run.taken_down && String(run.taken_down) <= day))
      .map((run) => run.geometry.coordinates.map(demo.metres))
    const climbing = demo.plantings.filter(
      (one) =>
        one.row && climbs.has(cropOf.get(one.variety) ?? '') && one.set_out! <= day && (one.cleared || '9999') > day,
    )
    const held = climbing.filter((planting) => {
      const [a, b] = rowOf.get(planting.row ?? '')!.geometry.coordinates.map(demo.metres) as [
        [number, number],
        [number, number],
      ]
      const t = (number(planting.from_m) + number(planting.to_m)) / 2 / lengthM([a, b])
      const middle: [number, number] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
      return standing.some(([from, to]) => distanceToLine(middle, from!, to!) <= 0.6)
    })
    expect(climbing.length).toBeGreaterThan(40)
    expect(held.length / climbing.length).toBeGreaterThan(0.8)
    expect(held.length).toBeLessThan(climbing.length)
  })
})

function distanceToLine([px, py]: [number, number], [ax, ay]: [number, number], [bx, by]: [number, number]): number {
  const t = Math.max(
    0,
    Math.min(1, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)),
  )
  return Math.hypot(px - ax - t * (bx - ax), py - ay - t * (by - ay))
}
