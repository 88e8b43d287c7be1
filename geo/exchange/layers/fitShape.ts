import type { Geometry, LineString, Position } from 'geojson'
import type { Kind } from '../../model/kind.ts'
import { positionsOf } from '../../plane/geometry.ts'

/** A geometry as shapes of a kind, one a record, with what was done to it; null note: nothing. */
export interface Fitted {
  readonly shapes: readonly Geometry[]
  readonly note: string | null
}

/** A walked outline counts as closed where its ends lie this near. */
const CLOSING_M = 15
const M_PER_DEGREE = 111_320

/**
 * Makes a geometry what a kind may have, where nothing is lost by it: the parts of a multi-geometry become records of
 * their own, a closed line an outline. What does not fit comes back as it is, for the checks to tell.
 */
export function fitShape(geometry: Geometry, kind: Kind): Fitted {
  const shapes = kind.shapes ?? []
  const fits = (one: Geometry) => shapes.includes('any') || (shapes as readonly string[]).includes(one.type)
  if (fits(geometry) || isCutAtMeridian(geometry)) return { shapes: [geometry], note: null }
  const parts = partsOf(geometry)
  const fitting = parts.filter(fits)
  if (fitting.length > 0) {
    if (parts.length === 1) return { shapes: fitting, note: null }
    const left = parts.length - fitting.length
    const rest = left > 0 ? `; ${left} of another sort ${left === 1 ? 'is' : 'are'} left out` : ''
    const each = fitting.length > 1 ? ', each taken for itself' : ''
    return { shapes: fitting, note: `is in ${parts.length} parts${each}${rest}` }
  }
  if (!shapes.includes('Polygon') || !parts.every((part) => part.type === 'LineString' && isClosing(part)))
    return { shapes: [geometry], note: null }
  const areas = parts.map(
    (part): Geometry => ({ type: 'Polygon', coordinates: [closed((part as LineString).coordinates)] }),
  )
  return { shapes: areas, note: 'is a line that comes back to its beginning, taken as an outline' }
}

function partsOf(geometry: Geometry): Geometry[] {
  switch (geometry.type) {
    case 'MultiPoint':
      return geometry.coordinates.map((coordinates) => ({ type: 'Point', coordinates }))
    case 'MultiLineString':
      return geometry.coordinates.map((coordinates) => ({ type: 'LineString', coordinates }))
    case 'MultiPolygon':
      return geometry.coordinates.map((coordinates) => ({ type: 'Polygon', coordinates }))
    case 'GeometryCollection':
      return geometry.geometries.flatMap(partsOf)
    default:
      return [geometry]
  }
}

/** Parts that touch the 180th meridian may be halves of one shape, which the archive's reading joins. */
function isCutAtMeridian(geometry: Geometry): boolean {
  if (geometry.type !== 'MultiPolygon' && geometry.type !== 'MultiLineString') return false
  for (const p of positionsOf(geometry)) if (Math.abs(p[0]!) === 180) return true
  return false
}

/** True for a line of three corners or more whose ends lie near each other, as against its extent. */
export function isClosing({ coordinates }: LineString): boolean {
  const corners = new Set(coordinates.map((p) => `${p[0]} ${p[1]}`))
  if (corners.size < 3) return false
  const [first, last] = [coordinates[0]!, coordinates.at(-1)!]
  const gapM = Math.max(...coordinates.map((p) => apartM(first, p)))
  return apartM(first, last) <= Math.min(CLOSING_M, gapM / 4)
}

function closed(line: readonly Position[]): Position[] {
  const [first, last] = [line[0]!, line.at(-1)!]
  return first[0] === last[0] && first[1] === last[1] ? [...line.slice(0, -1), first] : [...line, first]
}

/** Rough distance, for telling near from far only. */
function apartM(a: Position, b: Position): number {
  return Math.hypot((a[0]! - b[0]!) * Math.cos((a[1]! * Math.PI) / 180), a[1]! - b[1]!) * M_PER_DEGREE
}
