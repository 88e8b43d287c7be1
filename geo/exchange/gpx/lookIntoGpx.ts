import type { LineString, Position } from 'geojson'
import { LON_LAT } from '../../plane/grid.ts'
import type { How } from '../driver.ts'
import { isClosing } from '../layers/fitShape.ts'
import type { Found, FoundFeature, FoundLayer } from '../layers/found.ts'
import { placeShape } from '../layers/placeShape.ts'
import { type GpxLine, type GpxPoint, type GpxWaypoint, readGpx } from './readGpx.ts'

/**
 * Waypoints, tracks and routes as layers. A device does not say what they are: a track that comes back to its beginning is
 * taken for a walked boundary, other lines and waypoints for structures, until the person says better.
 */
export async function lookIntoGpx(bytes: Uint8Array, how: How): Promise<Found> {
  const file = how.fileName
  const { waypoints, lines, notes } = await readGpx(bytes, file, how.pace)
  const features = lines.map((line, i) => ({ line, feature: lineFeature(line, i + 1) }))
  const isOutline = ({ line, feature: { geometry } }: (typeof features)[number]) =>
    line.extra.kind === undefined && geometry?.type === 'LineString' && isClosing(geometry)
  const layer = (name: string, of: readonly FoundFeature[], hint: FoundLayer['hint']): FoundLayer[] =>
    of.length > 0 ? [{ name, file, features: of, ...(hint && { hint }) }] : []
  const structures = (what: string) => ({ kind: 'structures', constants: { kind: what } })
  const open = features.filter((one) => !isOutline(one))
  return {
    layers: [
      ...layer('waypoints', waypoints.map(waypointFeature), structures('waypoint')),
      ...layer(
        'outlines',
        features.filter(isOutline).map(({ feature }) => feature),
        { kind: 'fields', constants: {} },
      ),
      ...layer('tracks', ofSort(open, 'track'), structures('track')),
      ...layer('routes', ofSort(open, 'route'), structures('route')),
    ],
    notes,
    asksGrid: false,
  }
}

const ofSort = (all: readonly { line: GpxLine; feature: FoundFeature }[], of: GpxLine['of']) =>
  all.filter(({ line }) => line.of === of).map(({ feature }) => feature)

const positionOf = ({ lon, lat, heightM }: GpxPoint): Position => (heightM === null ? [lon, lat] : [lon, lat, heightM])

function lineFeature(line: GpxLine, n: number): FoundFeature {
  const parts = line.segments.filter(({ length }) => length > 1).map((segment) => segment.map(positionOf))
  const [only] = parts
  const time = line.segments[0]?.[0]?.time ?? null
  const shape: LineString | { type: 'MultiLineString'; coordinates: Position[][] } =
    parts.length === 1 ? { type: 'LineString', coordinates: only! } : { type: 'MultiLineString', coordinates: parts }
  const where = line.where
  return { n, where, id: null, ...outlineAgain(placeShape(shape, LON_LAT), line), values: valuesOf(line, time) }
}

/** Outlines were given out as closed lines, and say so. */
function outlineAgain(placed: ReturnType<typeof placeShape>, { extra }: GpxLine): ReturnType<typeof placeShape> {
  const { geometry } = placed
  if (extra.shape !== 'area' || !geometry) return placed
  const rings =
    geometry.type === 'LineString'
      ? [geometry.coordinates]
      : geometry.type === 'MultiLineString'
        ? geometry.coordinates
        : []
  return placeShape({ type: 'Polygon', coordinates: rings }, LON_LAT)
}

function waypointFeature(waypoint: GpxWaypoint, i: number): FoundFeature {
  const values = { ...valuesOf(waypoint, waypoint.point.time), ...(waypoint.symbol && { sym: waypoint.symbol }) }
  const shape = placeShape({ type: 'Point', coordinates: positionOf(waypoint.point) }, LON_LAT)
  return { n: i + 1, where: waypoint.where, id: null, ...shape, values }
}

function valuesOf({ name, description, type, extra }: GpxLine | GpxWaypoint, time: string | null) {
  const { shape: _, ...values } = extra
  const told = { name, desc: description, type, time }
  const known = Object.entries(told).filter(([key, value]) => value !== null && !(extra.kind && key !== 'name'))
  return { ...Object.fromEntries(known), ...values }
}
