import type { Feature, Geometry, Position } from 'geojson'

/** The first of the features that holds the middle of a shape; null where none does. For a choice to begin with, not a measure. */
export function holderOf<P>(shape: Geometry, features: readonly Feature<Geometry, P>[]): P | null {
  const middle = middleOf(shape)
  return middle ? (features.find(({ geometry }) => holds(geometry, middle))?.properties ?? null) : null
}

/** Mean of a shape's corners; null for shapes that are drawn nowhere here. */
export function middleOf(shape: Geometry): readonly [number, number] | null {
  const corners = cornersOf(shape)
  if (corners.length === 0) return null
  const sum = (axis: 0 | 1) => corners.reduce((total, corner) => total + corner[axis]!, 0) / corners.length
  return [sum(0), sum(1)]
}

function cornersOf(shape: Geometry): readonly Position[] {
  switch (shape.type) {
    case 'Point':
      return [shape.coordinates]
    case 'LineString':
      return shape.coordinates
    case 'Polygon':
      return shape.coordinates[0]?.slice(0, -1) ?? []
    case 'MultiPolygon':
      return shape.coordinates[0]?.[0]?.slice(0, -1) ?? []
    default:
      return []
  }
}

/** True where a place lies inside an outline. */
export function holds(geometry: Geometry, at: readonly [number, number]): boolean {
  if (geometry.type === 'Polygon') return inRings(geometry.coordinates, at)
  if (geometry.type === 'MultiPolygon') return geometry.coordinates.some((rings) => inRings(rings, at))
  return false
}

/** Even–odd rule over all rings, so that holes are outside. */
function inRings(rings: readonly Position[][], [x, y]: readonly [number, number]): boolean {
  let inside = false
  for (const ring of rings)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
      const [ax, ay] = ring[i] as [number, number]
      const [bx, by] = ring[j] as [number, number]
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
    }
  return inside
}
