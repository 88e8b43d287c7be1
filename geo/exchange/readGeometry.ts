import type { Geometry, Position } from 'geojson'
import { shown } from './faults.ts'

/** A geometry as the file has it, or every kind of thing that is wrong with it. */
export type GeometryRead = { readonly geometry: Geometry } | { readonly reasons: readonly string[] }

const MOST_POSITIONS = 2_000_000
const DEEPEST = 4

/** What is wrong so far: the first place of each kind of flaw, and how many more there are. */
interface Survey {
  readonly flaws: Map<string, { first: string; more: number }>
  positions: number
  flat: number
  high: number
}

/**
 * Reads one GeoJSON geometry (RFC 7946 §3.1), lon/lat in degrees. Either winding is kept as it is. Ring closure, number
 * of positions, finiteness and range are looked at here; validity in the plane is not.
 */
export function readGeometry(json: unknown): GeometryRead {
  const survey: Survey = { flaws: new Map(), positions: 0, flat: 0, high: 0 }
  const geometry = read(json, survey, '', 0)
  if (survey.flat > 0 && survey.high > 0) tell(survey, 'heights', 'has a height in some positions and none in others')
  if (survey.positions > MOST_POSITIONS)
    tell(survey, 'many', `has ${survey.positions} positions; more than ${MOST_POSITIONS} are not read`)
  if (geometry && survey.flaws.size === 0) return { geometry }
  return {
    reasons: [...survey.flaws.values()].map(({ first, more }) =>
      more > 0 ? `${first} (and ${more} more like it)` : first,
    ),
  }
}

function tell(survey: Survey, kind: string, reason: string): null {
  const known = survey.flaws.get(kind)
  if (known) known.more += 1
  else survey.flaws.set(kind, { first: reason, more: 0 })
  return null
}

function read(json: unknown, survey: Survey, at: string, depth: number): Geometry | null {
  if (json === null || json === undefined) return tell(survey, 'null', 'is missing')
  if (typeof json !== 'object' || Array.isArray(json)) return tell(survey, 'kind', 'is not a geometry')
  const { type, coordinates, geometries } = json as { type?: unknown; coordinates?: unknown; geometries?: unknown }
  switch (type) {
    case 'Point':
      position(coordinates, survey, at)
      return { type, coordinates: coordinates as Position }
    case 'MultiPoint':
      each(coordinates, survey, at, 'position', position)
      return { type, coordinates: coordinates as Position[] }
    case 'LineString':
      line(coordinates, survey, at)
      return { type, coordinates: coordinates as Position[] }
    case 'MultiLineString':
      each(coordinates, survey, at, 'line', line)
      return { type, coordinates: coordinates as Position[][] }
    case 'Polygon':
      each(coordinates, survey, at, 'ring', ring)
      return { type, coordinates: coordinates as Position[][] }
    case 'MultiPolygon':
      each(coordinates, survey, at, 'polygon', (c, s, a) => each(c, s, a, 'ring', ring))
      return { type, coordinates: coordinates as Position[][][] }
    case 'GeometryCollection': {
      if (depth >= DEEPEST) return tell(survey, 'deep', `is nested more than ${DEEPEST} deep`)
      const parts: Geometry[] = []
      each(geometries, survey, at, 'part', (part, s, a) => {
        const one = read(part, s, a, depth + 1)
        if (one) parts.push(one)
      })
      return { type, geometries: parts }
    }
    default:
      return tell(survey, 'type', `has the type ${shown(type)}, which is no geometry`)
  }
}

function each(
  list: unknown,
  survey: Survey,
  at: string,
  name: string,
  one: (item: unknown, survey: Survey, at: string) => void,
): void {
  if (!Array.isArray(list)) {
    tell(survey, 'list', `lacks its coordinates${at}`)
    return
  }
  if (list.length === 0) tell(survey, 'empty', `is empty${at}`)
  for (let i = 0; i < list.length; i++) one(list[i], survey, `${at}${at ? ',' : ' at'} ${name} ${i + 1}`)
}

function line(coordinates: unknown, survey: Survey, at: string): void {
  const list = positions(coordinates, survey, at)
  if (!list) return
  const [first] = list
  if (list.length < 2) tell(survey, 'short', `has a line of ${list.length} positions, at least 2 are needed${at}`)
  else if (!list.some((p) => p[0] !== first![0] || p[1] !== first![1]))
    tell(survey, 'short', `has a line whose positions are all the same${at}`)
}

function ring(coordinates: unknown, survey: Survey, at: string): void {
  const list = positions(coordinates, survey, at)
  if (!list || list.length === 0) return
  const [first, last] = [list[0]!, list[list.length - 1]!]
  if ((first[0]! - last[0]!) % 360 !== 0 || first[1] !== last[1] || first[2] !== last[2])
    tell(survey, 'open', `has a ring that is not closed: it begins at ${shown(first)} and ends at ${shown(last)}${at}`)
  else if (list.length < 4) tell(survey, 'short', `has a ring of ${list.length} positions, at least 4 are needed${at}`)
}

/** The list where every position is sound enough to be compared; null otherwise, with the flaws told. */
function positions(coordinates: unknown, survey: Survey, at: string): Position[] | null {
  if (!Array.isArray(coordinates)) {
    tell(survey, 'list', `lacks its coordinates${at}`)
    return null
  }
  if (coordinates.length === 0) tell(survey, 'empty', `is empty${at}`)
  let sound = true
  for (let i = 0; i < coordinates.length; i++) if (!position(coordinates[i], survey, at, i)) sound = false
  return sound ? (coordinates as Position[]) : null
}

/** True where it is two or three finite numbers; range is told apart from that. */
function position(p: unknown, survey: Survey, at: string, index = -1): boolean {
  const place = () => (index < 0 ? at : `${at}${at ? ',' : ' at'} position ${index + 1}`)
  survey.positions += 1
  if (!Array.isArray(p) || p.length < 2 || p.length > 3) {
    tell(survey, 'position', `has ${shown(p)} for a position, which is not two or three numbers${place()}`)
    return false
  }
  for (let i = 0; i < p.length; i++)
    if (typeof p[i] !== 'number' || !Number.isFinite(p[i])) {
      tell(survey, 'number', `has a coordinate that is not a finite number: ${shownPosition(p)}${place()}`)
      return false
    }
  if (p.length === 2) survey.flat += 1
  else survey.high += 1
  const [lon, lat] = p as [number, number]
  if (Math.abs(lat) > 90) {
    const swapped = Math.abs(lon) <= 90 && Math.abs(lat) <= 180 ? ' (lon and lat look swapped)' : ''
    tell(survey, 'lat', `has the latitude ${lat}, outside ±90${swapped}${place()}`)
  }
  if (Math.abs(lon) > 180) tell(survey, 'lon', `has the longitude ${lon}, outside ±180${place()}`)
  return true
}

/** A position with its infinities, which JSON would write as null. */
function shownPosition(p: readonly unknown[]): string {
  return `[${p.map((part) => (typeof part === 'number' ? String(part) : shown(part))).join(', ')}]`
}
