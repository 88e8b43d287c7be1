import type { LineString, Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { holderOf } from '../../../src/sheets/ground/lies.ts'
import { nextName } from '../../../src/sheets/ground/nextName.ts'
import { sideOf } from '../../../src/sheets/ground/sideOf.ts'

describe('the next free name', () => {
  it('counts on from the names there are', () => {
    expect(nextName(['B1', 'B2', 'B13'], 'B')).toBe('B14')
    expect(nextName(['Row 008', 'Row 009'], 'R')).toBe('Row 010')
    expect(nextName(['B1', 'B2', 'Nursery 7'], 'B')).toBe('B3')
  })

  it('begins at one, past what is taken', () => {
    expect(nextName([], 'M')).toBe('M1')
    expect(nextName(['herbs'], 'M')).toBe('M1')
  })
})

const plane = planeAbout([15.6412, 46.3374])
const lonLat = (x: number, y: number) => [...plane.toLonLat([x, y])]

/** A bed 20 m by 1.2 m about the origin, and a row along it so far to the right of its axis. */
function bedAndRow(bearingDeg: number, rightM: number): [LineString, Polygon] {
  const b = (bearingDeg * Math.PI) / 180
  const at = (along: number, right: number) =>
    lonLat(along * Math.sin(b) + right * Math.cos(b), along * Math.cos(b) - right * Math.sin(b))
  const ring = [at(-10, -0.6), at(10, -0.6), at(10, 0.6), at(-10, 0.6), at(-10, -0.6)]
  return [
    { type: 'LineString', coordinates: [at(-10, rightM), at(10, rightM)] },
    { type: 'Polygon', coordinates: [ring] },
  ]
}

describe('the side of a bed that a row lies on', () => {
  const side = (bearingDeg: number, rightM: number) =>
    sideOf(...bedAndRow(bearingDeg, rightM), { bearing_deg: bearingDeg, width_m: 1.2 })

  it('is told by compass: right of east is south, right of north is east', () => {
    expect(side(90, 0.45)).toBe('south edge')
    expect(side(90, -0.45)).toBe('north edge')
    expect(side(0, 0.45)).toBe('east edge')
    expect(side(0, -0.45)).toBe('west edge')
    expect(side(100, 0.45)).toBe('south edge')
    expect(side(170, 0.45)).toBe('west edge')
  })

  it('is the middle within the middle third', () => {
    expect(side(80, 0.15)).toBe('middle')
    expect(side(80, -0.15)).toBe('middle')
  })
})

describe('what a new shape lies in', () => {
  const square = (id: string, x: number): { type: 'Feature'; geometry: Polygon; properties: { id: string } } => ({
    type: 'Feature',
    geometry: {
      type: 'Polygon',
      coordinates: [
        [lonLat(x, 0), lonLat(x + 10, 0), lonLat(x + 10, 10), lonLat(x, 10), lonLat(x, 0)],
        [lonLat(x + 4, 4), lonLat(x + 4, 6), lonLat(x + 6, 6), lonLat(x + 6, 4), lonLat(x + 4, 4)],
      ],
    },
    properties: { id },
  })
  const fields = [square('west', 0), square('east', 20)]

  it('is the one that holds its middle, holes left out', () => {
    expect(holderOf({ type: 'Point', coordinates: lonLat(21, 1) }, fields)).toEqual({ id: 'east' })
    expect(holderOf({ type: 'LineString', coordinates: [lonLat(1, 1), lonLat(3, 3)] }, fields)).toEqual({ id: 'west' })
    expect(holderOf({ type: 'Point', coordinates: lonLat(5, 5) }, fields)).toBeNull()
    expect(holderOf({ type: 'Point', coordinates: lonLat(15, 5) }, fields)).toBeNull()
  })
})
