import type { Geometry, Position } from 'geojson'
import type { AnyRecord } from '../../model/kind.ts'
import { positionsOf } from '../../plane/geometry.ts'

/** Finds the record that holds the middle of a shape. */
export type FindHolder = (shape: Geometry) => AnyRecord | null

/** Looks among records of areas; of several that hold the place the smallest by its box is told. */
export function holderAmong(records: readonly AnyRecord[]): FindHolder {
  const boxed = records
    .filter(({ geom }) => geom)
    .map((record) => ({ record, box: boxOf(record.geom!) }))
    .sort((a, b) => sizeOf(a.box) - sizeOf(b.box))
  return (shape) => {
    const at = middleOf(shape)
    const found = boxed.find(({ record, box }) => inBox(box, at) && holds(record.geom!, at))
    return found?.record ?? null
  }
}

type Box = readonly [west: number, south: number, east: number, north: number]

function boxOf(geometry: Geometry): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const p of positionsOf(geometry)) {
    west = Math.min(west, p[0]!)
    east = Math.max(east, p[0]!)
    south = Math.min(south, p[1]!)
    north = Math.max(north, p[1]!)
  }
  return [west, south, east, north]
}

const sizeOf = ([west, south, east, north]: Box) => (east - west) * (north - south)
const inBox = ([west, south, east, north]: Box, [x, y]: Position) =>
  x! >= west && x! <= east && y! >= south && y! <= north

/** The middle of a line by its length, of an area by its corners' box, or the place of a point. */
function middleOf(geometry: Geometry): Position {
  if (geometry.type === 'LineString') return midway(geometry.coordinates)
  const [west, south, east, north] = boxOf(geometry)
  return [(west + east) / 2, (south + north) / 2]
}

function midway(line: readonly Position[]): Position {
  const lengths = line.slice(1).map((p, i) => Math.hypot(p[0]! - line[i]![0]!, p[1]! - line[i]![1]!))
  let rest = lengths.reduce((sum, length) => sum + length, 0) / 2
  for (const [i, length] of lengths.entries()) {
    if (rest <= length && length > 0) {
      const [a, b, part] = [line[i]!, line[i + 1]!, rest / length]
      return [a[0]! + (b[0]! - a[0]!) * part, a[1]! + (b[1]! - a[1]!) * part]
    }
    rest -= length
  }
  return line[0]!
}

function holds(geometry: Geometry, at: Position): boolean {
  if (geometry.type === 'Polygon') return inRings(geometry.coordinates, at)
  return geometry.type === 'MultiPolygon' && geometry.coordinates.some((rings) => inRings(rings, at))
}

/** Even–odd rule over all rings, so that holes are outside. */
function inRings(rings: readonly Position[][], [x, y]: Position): boolean {
  let inside = false
  for (const ring of rings)
    for (let i = 1; i < ring.length; i++) {
      const [a, b] = [ring[i - 1]!, ring[i]!]
      if (a[1]! > y! === b[1]! > y!) continue
      if (x! < a[0]! + ((b[0]! - a[0]!) * (y! - a[1]!)) / (b[1]! - a[1]!)) inside = !inside
    }
  return inside
}
