import type { Geometry, Position } from 'geojson'
import { positionsOf } from '../../plane/geometry.ts'
import { turned } from '../rings.ts'

/** Shapes of one file are all of one type. */
export type ShpType = 'points' | 'multipoints' | 'lines' | 'areas'

const CODES: Readonly<Record<ShpType, number>> = { points: 1, multipoints: 8, lines: 3, areas: 5 }
const HEADER_BYTES = 100
const RECORD_HEADER_BYTES = 8
type Box = readonly [west: number, south: number, east: number, north: number]

/** A .shp with its index .shx (ESRI Shapefile Technical Description, July 1998). Heights are not written. */
export function writeShp(type: ShpType, shapes: readonly Geometry[]): { shp: Uint8Array; shx: Uint8Array } {
  const records = shapes.map((shape) => contentOf(type, shape))
  const shpBytes = HEADER_BYTES + records.reduce((sum, one) => sum + RECORD_HEADER_BYTES + one.length, 0)
  const shp = new Uint8Array(shpBytes)
  const shx = new Uint8Array(HEADER_BYTES + 8 * records.length)
  const box = boxOf(shapes)
  writeHeader(new DataView(shp.buffer), shpBytes, CODES[type], box)
  writeHeader(new DataView(shx.buffer), shx.length, CODES[type], box)
  const [shpView, shxView] = [new DataView(shp.buffer), new DataView(shx.buffer)]
  let at = HEADER_BYTES
  records.forEach((content, i) => {
    shpView.setInt32(at, i + 1)
    shpView.setInt32(at + 4, content.length / 2)
    shp.set(content, at + RECORD_HEADER_BYTES)
    shxView.setInt32(HEADER_BYTES + 8 * i, at / 2)
    shxView.setInt32(HEADER_BYTES + 8 * i + 4, content.length / 2)
    at += RECORD_HEADER_BYTES + content.length
  })
  return { shp, shx }
}

function writeHeader(view: DataView, bytes: number, code: number, box: Box): void {
  view.setInt32(0, 9994)
  view.setInt32(24, bytes / 2)
  view.setInt32(28, 1000, true)
  view.setInt32(32, code, true)
  box.forEach((value, i) => {
    view.setFloat64(36 + 8 * i, value, true)
  })
}

function boxOf(shapes: readonly Geometry[]): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const shape of shapes)
    for (const [x, y] of positionsOf(shape)) {
      west = Math.min(west, x!)
      east = Math.max(east, x!)
      south = Math.min(south, y!)
      north = Math.max(north, y!)
    }
  return west > east ? [0, 0, 0, 0] : [west, south, east, north]
}

function contentOf(type: ShpType, shape: Geometry): Uint8Array {
  if (type === 'points') {
    const [x, y] = (shape as { coordinates: Position }).coordinates
    const view = new DataView(new ArrayBuffer(20))
    view.setInt32(0, CODES.points, true)
    view.setFloat64(4, x!, true)
    view.setFloat64(12, y!, true)
    return new Uint8Array(view.buffer)
  }
  const parts = type === 'multipoints' ? [[...positionsOf(shape)]] : partsOf(shape)
  const points = parts.flat()
  const partsBytes = type === 'multipoints' ? 0 : 4 + 4 * parts.length
  const view = new DataView(new ArrayBuffer(4 + 32 + partsBytes + 4 + 16 * points.length))
  view.setInt32(0, CODES[type], true)
  boxOf([shape]).forEach((value, i) => {
    view.setFloat64(4 + 8 * i, value, true)
  })
  let at = 36
  const int = (value: number) => {
    view.setInt32(at, value, true)
    at += 4
  }
  if (type !== 'multipoints') int(parts.length)
  int(points.length)
  let start = 0
  if (type !== 'multipoints')
    for (const part of parts) {
      int(start)
      start += part.length
    }
  for (const [x, y] of points) {
    view.setFloat64(at, x!, true)
    view.setFloat64(at + 8, y!, true)
    at += 16
  }
  return new Uint8Array(view.buffer)
}

/** Lines, or rings with the outer ones clockwise and holes the other way. */
function partsOf(shape: Geometry): Position[][] {
  switch (shape.type) {
    case 'LineString':
      return [shape.coordinates]
    case 'MultiLineString':
      return shape.coordinates
    case 'Polygon':
      return shape.coordinates.map((ring, i) => turned(ring, i > 0))
    case 'MultiPolygon':
      return shape.coordinates.flatMap((rings) => rings.map((ring, i) => turned(ring, i > 0)))
    default:
      throw new Error(`a ${shape.type} is neither line nor area`)
  }
}
