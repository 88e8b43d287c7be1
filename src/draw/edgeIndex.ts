import type { Geometry, Position } from 'geojson'
import type { LonLat } from '../../geo/plane/lonLat.ts'

/** An edge of something that stands, from corner to corner in lon/lat. A point is an edge from itself to itself. */
export type Edge = readonly [from: LonLat, to: LonLat]

/** Edges by where they lie, for asking what is near the pointer. */
export interface EdgeIndex {
  /** Edges that may come within so many degrees of a place, each once. */
  near(at: LonLat, lonReach: number, latReach: number): readonly Edge[]
}

/** Lines of positions in a geometry. */
function* linesOf(geometry: Geometry): Generator<readonly Position[]> {
  switch (geometry.type) {
    case 'Point':
      yield [geometry.coordinates]
      return
    case 'MultiPoint':
      for (const p of geometry.coordinates) yield [p]
      return
    case 'LineString':
      yield geometry.coordinates
      return
    case 'MultiLineString':
    case 'Polygon':
      yield* geometry.coordinates
      return
    case 'MultiPolygon':
      for (const polygon of geometry.coordinates) yield* polygon
      return
    case 'GeometryCollection':
      for (const part of geometry.geometries) yield* linesOf(part)
  }
}

/** An index of all edges of the geometries in a grid of square cells, about one for each edge; a long edge stands in every cell that it crosses. */
export function edgeIndex(geometries: Iterable<Geometry>): EdgeIndex {
  const edges: Edge[] = []
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const geometry of geometries)
    for (const line of linesOf(geometry)) {
      for (let i = 0; i < Math.max(1, line.length - 1); i++) {
        const a = line[i]
        const b = line[i + 1] ?? a
        if (a && b)
          edges.push([
            [a[0]!, a[1]!],
            [b[0]!, b[1]!],
          ])
      }
      for (const [lon, lat] of line) {
        west = Math.min(west, lon!)
        east = Math.max(east, lon!)
        south = Math.min(south, lat!)
        north = Math.max(north, lat!)
      }
    }
  const sides = Math.max(1, Math.min(256, Math.ceil(Math.sqrt(edges.length))))
  const [dx, dy] = [(east - west) / sides || 1, (north - south) / sides || 1]
  const column = (lon: number) => Math.max(0, Math.min(sides - 1, Math.floor((lon - west) / dx)))
  const line = (lat: number) => Math.max(0, Math.min(sides - 1, Math.floor((lat - south) / dy)))
  const cells = new Map<number, number[]>()
  edges.forEach(([a, b], n) => {
    const [left, right] = a[0] <= b[0] ? [a, b] : [b, a]
    for (let c = column(left[0]); c <= column(right[0]); c++) {
      const latAt = (lon: number) => {
        const t = right[0] === left[0] ? 0 : (lon - left[0]) / (right[0] - left[0])
        return left[1] + Math.max(0, Math.min(1, t)) * (right[1] - left[1])
      }
      const [u, v] = right[0] === left[0] ? [left[1], right[1]] : [latAt(west + c * dx), latAt(west + (c + 1) * dx)]
      for (let l = line(Math.min(u, v)); l <= line(Math.max(u, v)); l++) {
        const key = c * sides + l
        const cell = cells.get(key)
        if (cell) cell.push(n)
        else cells.set(key, [n])
      }
    }
  })
  return {
    near([lon, lat], lonReach, latReach) {
      if (
        edges.length === 0 ||
        lon + lonReach < west ||
        lon - lonReach > east ||
        lat + latReach < south ||
        lat - latReach > north
      )
        return []
      const found = new Set<number>()
      for (let c = column(lon - lonReach); c <= column(lon + lonReach); c++)
        for (let l = line(lat - latReach); l <= line(lat + latReach); l++)
          for (const n of cells.get(c * sides + l) ?? []) found.add(n)
      return [...found].map((n) => edges[n]!)
    },
  }
}
