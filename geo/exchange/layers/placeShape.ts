import type { Geometry, Position } from 'geojson'
import { mapPositions, positionsOf } from '../../plane/geometry.ts'
import type { Grid } from '../../plane/grid.ts'
import { readGeometry } from '../readGeometry.ts'
import { refusedShape } from './refusedShape.ts'

/** A geometry in lon/lat, or why it can't be used. */
export interface Placed {
  readonly geometry: Geometry | null
  readonly flaws: readonly string[]
  /** What can be drawn of one that can't be used. */
  readonly refused?: Geometry
}

/** Nothing there, and nothing wrong. */
export const NO_SHAPE: Placed = { geometry: null, flaws: [] }

/**
 * Brings a geometry of another program to lon/lat and looks it through. Heights are kept where every position has one
 * and they say something (many programs write 0 throughout); measures (M) are the drivers' to drop.
 */
export function placeShape(raw: Geometry, grid: Grid): Placed {
  if (isEmpty(raw)) return NO_SHAPE
  const placed = grid.toLonLat ? mapPositions(raw, grid.toLonLat) : raw
  for (const [lon, lat] of positionsOf(placed))
    if (!Number.isFinite(lon) || !Number.isFinite(lat))
      return refused([`has a position outside of what ${grid.name} covers`], placed)
  const read = readGeometry(withUsefulHeights(placed))
  return 'geometry' in read ? { geometry: read.geometry, flaws: [] } : refused(read.reasons, placed)
}

/** Why a geometry can't be used, with what can be drawn of it. */
export function refused(flaws: readonly string[], given: unknown): Placed {
  const shape = refusedShape(given)
  return { geometry: null, flaws, ...(shape && { refused: shape }) }
}

function isEmpty(geometry: Geometry): boolean {
  for (const _ of positionsOf(geometry)) return false
  return true
}

function withUsefulHeights(geometry: Geometry): Geometry {
  let all = true
  let some = false
  for (const p of positionsOf(geometry)) {
    if (p.length < 3 || !Number.isFinite(p[2])) all = false
    else if (p[2] !== 0) some = true
  }
  return all && some ? geometry : flat(geometry)
}

function flat(geometry: Geometry): Geometry {
  if (geometry.type === 'GeometryCollection')
    return { type: 'GeometryCollection', geometries: geometry.geometries.map(flat) }
  return { ...geometry, coordinates: flatCoordinates(geometry.coordinates) } as Geometry
}

type Coordinates = Position | Coordinates[]

function flatCoordinates(coordinates: Coordinates): Coordinates {
  return typeof coordinates[0] === 'number'
    ? (coordinates as Position).slice(0, 2)
    : (coordinates as Coordinates[]).map(flatCoordinates)
}
