import type { LineString, MultiPolygon, Point, Polygon } from 'geojson'
import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { lonWithin180 } from '../../geo/plane/lonLat.ts'
import type { Plane } from '../../geo/plane/plane.ts'

/** Geometry whose corners can be edited. */
export type EditGeometry = Polygon | MultiPolygon | LineString | Point

/** What is drawn or edited, in the farm's plane, as lists of corners: one for a line or point, one a ring for areas. Rings are open: the first corner is not said again. */
export type Shape =
  | { readonly type: 'Point' | 'LineString'; readonly parts: readonly [Corners] }
  | { readonly type: 'Polygon'; readonly parts: readonly Corners[] }
  | {
      readonly type: 'MultiPolygon'
      readonly parts: readonly Corners[]
      /** How many of the parts each polygon has: its outer ring, then its holes. */
      readonly rings: readonly number[]
    }
export type Corners = readonly Metres[]

export const isArea = (shape: Shape): boolean => shape.type === 'Polygon' || shape.type === 'MultiPolygon'

/** Twice the area that a ring encloses, positive where it runs counterclockwise; reckoned from its first corner, so that farms far from the origin lose nothing. */
export function twiceArea(ring: Corners): number {
  const [x0, y0] = ring[0] ?? [0, 0]
  let sum = 0
  for (let i = 1; i + 1 < ring.length; i++) {
    const [ax, ay] = ring[i]!
    const [bx, by] = ring[i + 1]!
    sum += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
  }
  return sum
}

/** The shape's parts by polygon. */
export function polygonsOf(shape: Shape): readonly (readonly Corners[])[] {
  if (shape.type === 'Polygon') return [shape.parts]
  if (shape.type !== 'MultiPolygon') return []
  return shape.rings.map((count, n) => {
    const from = shape.rings.slice(0, n).reduce((sum, before) => sum + before, 0)
    return shape.parts.slice(from, from + count)
  })
}

/** The shape of a geometry in lon/lat. */
export function shapeOf(geometry: EditGeometry, plane: Plane): Shape {
  const corners = (positions: readonly (readonly number[])[]): Corners =>
    positions.map((p) => plane.toMetres([p[0]!, p[1]!]))
  const open = (positions: readonly (readonly number[])[]): Corners => corners(positions.slice(0, -1))
  switch (geometry.type) {
    case 'Point':
      return { type: 'Point', parts: [corners([geometry.coordinates])] }
    case 'LineString':
      return { type: 'LineString', parts: [corners(geometry.coordinates)] }
    case 'Polygon':
      return { type: 'Polygon', parts: geometry.coordinates.map(open) }
    case 'MultiPolygon':
      return {
        type: 'MultiPolygon',
        parts: geometry.coordinates.flatMap((rings) => rings.map(open)),
        rings: geometry.coordinates.map((rings) => rings.length),
      }
  }
}

/** The geometry of a shape: rings closed, outer ones counterclockwise, holes clockwise (RFC 7946), longitudes within ±180. */
export function geometryOf(shape: Shape, plane: Plane): EditGeometry {
  const lonLat = (at: Metres): [number, number] => {
    const [lon, lat]: LonLat = plane.toLonLat(at)
    return [lonWithin180(lon), lat]
  }
  const ring = (corners: Corners, hole: boolean): [number, number][] => {
    const forward = twiceArea(corners) > 0 !== hole
    const turned = forward ? corners : [corners[0]!, ...corners.slice(1).reverse()]
    const places = turned.map(lonLat)
    return [...places, places[0]!]
  }
  if (shape.type === 'Point') return { type: 'Point', coordinates: lonLat(shape.parts[0][0]!) }
  if (shape.type === 'LineString') return { type: 'LineString', coordinates: shape.parts[0].map(lonLat) }
  const polygons = polygonsOf(shape).map((rings) => rings.map((r, i) => ring(r, i > 0)))
  return shape.type === 'Polygon'
    ? { type: 'Polygon', coordinates: polygons[0] ?? [] }
    : { type: 'MultiPolygon', coordinates: polygons }
}
