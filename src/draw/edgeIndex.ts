import type { Geometry, Position } from 'geojson'
import type { LonLat } from '../../geo/plane/lonLat.ts'

/** An edge of something that stands, from corner to corner in lon/lat. A point is an edge from itself to itself. */
export type Edge = readonly [from: LonLat, to: LonLat]

/** A geometry and whose it is, so that what is being edited can be passed over. */
export interface Owned {
  readonly owner: string
  readonly geometry: Geometry
}

/** Edges by where they lie, for asking what is near the pointer. */
export interface EdgeIndex {
  /** Edges that may come within so many degrees of a place, each once and always the same object; null where there are more than `most`. */
  near(
    at: LonLat,
    lonReach: number,
    latReach: number,
    without?: ReadonlySet<string>,
    most?: number,
  ): readonly Edge[] | null
}

/** Lines of positions in a geometry. */
function linesOf(geometry: Geometry): readonly (readonly Position[])[] {
  switch (geometry.type) {
    case 'Point':
      return [[geometry.coordinates]]
    case 'MultiPoint':
      return geometry.coordinates.map((p) => [p])
    case 'LineString':
      return [geometry.coordinates]
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates
    case 'MultiPolygon':
      return geometry.coordinates.flat()
    case 'GeometryCollection':
      return geometry.geometries.flatMap(linesOf)
  }
}

/** An index of all edges of the geometries in a grid of cells, about one for each edge; a long edge stands in every cell that it crosses. */
export function edgeIndex(things: Iterable<Owned>): EdgeIndex {
  const ends: number[] = []
  const owners: string[] = []
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { owner, geometry } of things)
    for (const line of linesOf(geometry)) {
      for (let i = 0; i < line.length; i++) {
        const [lon, lat] = line[i] as [number, number]
        if (lon < west) west = lon
        if (lon > east) east = lon
        if (lat < south) south = lat
        if (lat > north) north = lat
        const next = line[i + 1] ?? (line.length === 1 ? line[0] : undefined)
        if (!next) continue
        ends.push(lon, lat, next[0]!, next[1]!)
        owners.push(owner)
      }
    }
  const count = owners.length
  const sides = Math.max(1, Math.min(256, Math.ceil(Math.sqrt(count))))
  const [dx, dy] = [(east - west) / sides || 1, (north - south) / sides || 1]
  const clamp = (n: number) => (n < 0 ? 0 : n >= sides ? sides - 1 : Math.floor(n))
  const column = (lon: number) => clamp((lon - west) / dx)
  const line = (lat: number) => clamp((lat - south) / dy)

  /** Every cell that an edge crosses, column by column. */
  const cellsOf = (n: number, each: (cell: number) => void) => {
    const forward = ends[4 * n]! <= ends[4 * n + 2]!
    const [a, b, c, d] = forward
      ? [ends[4 * n]!, ends[4 * n + 1]!, ends[4 * n + 2]!, ends[4 * n + 3]!]
      : [ends[4 * n + 2]!, ends[4 * n + 3]!, ends[4 * n]!, ends[4 * n + 1]!]
    const latAt = (lon: number) => {
      const t = c === a ? 0 : (lon - a) / (c - a)
      return b + Math.max(0, Math.min(1, t)) * (d - b)
    }
    const last = column(c)
    for (let col = column(a); col <= last; col++) {
      const [u, v] = c === a ? [b, d] : [latAt(west + col * dx), latAt(west + (col + 1) * dx)]
      const top = line(Math.max(u, v))
      for (let row = line(Math.min(u, v)); row <= top; row++) each(col * sides + row)
    }
  }
  // Cell after cell in one list: counted first, then filled.
  const starts = new Uint32Array(sides * sides + 1)
  for (let n = 0; n < count; n++) cellsOf(n, (cell) => starts[cell + 1]!++)
  for (let cell = 0; cell < sides * sides; cell++) starts[cell + 1]! += starts[cell]!
  const held = new Uint32Array(starts[sides * sides]!)
  const filled = starts.slice()
  for (let n = 0; n < count; n++)
    cellsOf(n, (cell) => {
      held[filled[cell]!++] = n
    })

  const made: (Edge | undefined)[] = new Array(count)
  const seen = new Uint32Array(count)
  let asking = 0
  return {
    near([lon, lat], lonReach, latReach, without, most = Infinity) {
      if (
        count === 0 ||
        lon + lonReach < west ||
        lon - lonReach > east ||
        lat + latReach < south ||
        lat - latReach > north
      )
        return []
      asking++
      const found: Edge[] = []
      const [lastCol, lastRow] = [column(lon + lonReach), line(lat + latReach)]
      for (let col = column(lon - lonReach); col <= lastCol; col++)
        for (let row = line(lat - latReach); row <= lastRow; row++) {
          const cell = col * sides + row
          for (let i = starts[cell]!; i < starts[cell + 1]!; i++) {
            const n = held[i]!
            if (seen[n] === asking) continue
            seen[n] = asking
            if (without?.has(owners[n]!)) continue
            made[n] ??= [
              [ends[4 * n]!, ends[4 * n + 1]!],
              [ends[4 * n + 2]!, ends[4 * n + 3]!],
            ]
            found.push(made[n])
            if (found.length > most) return null
          }
        }
      return found
    },
  }
}
