import type { Geometry, Position } from 'geojson'

const DEEPEST = 8

/**
 * What can be drawn of a geometry that can't be used: its lines and the outlines of its areas, as far as their positions are
 * longitudes and latitudes in degrees, else its points; null where nothing is left. Takes whatever a file holds.
 */
export function refusedShape(json: unknown): Geometry | null {
  const [lines, points]: [Position[][], Position[]] = [[], []]
  gather(json, lines, points, 0)
  if (lines.length > 0) return { type: 'MultiLineString', coordinates: lines }
  return points.length > 0 ? { type: 'MultiPoint', coordinates: points } : null
}

function gather(part: unknown, lines: Position[][], points: Position[], depth: number): void {
  if (depth > DEEPEST || typeof part !== 'object' || part === null) return
  if (!Array.isArray(part)) {
    const { coordinates, geometries } = part as { coordinates?: unknown; geometries?: unknown }
    gather(coordinates, lines, points, depth + 1)
    gather(geometries, lines, points, depth + 1)
    return
  }
  if (isPosition(part)) {
    points.push([part[0]!, part[1]!])
    return
  }
  const line = part.filter(isPosition).map(([lon, lat]): Position => [lon!, lat!])
  if (line.length > 1) lines.push(line)
  else if (line.length === 1) points.push(line[0]!)
  else for (const inner of part) gather(inner, lines, points, depth + 1)
}

function isPosition(part: unknown): part is Position {
  if (!Array.isArray(part)) return false
  const [lon, lat] = part as unknown[]
  return isDegrees(lon, 180) && isDegrees(lat, 90)
}

function isDegrees(value: unknown, most: number): boolean {
  return typeof value === 'number' && Math.abs(value) <= most
}
