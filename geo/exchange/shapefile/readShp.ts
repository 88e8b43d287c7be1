import type { Geometry, Position } from 'geojson'
import type { Pace } from '../../store/pace.ts'
import { polygonsOf } from '../rings.ts'

/** Shapes by their record's number from 0; null is a null shape, a text why one can't be read. */
export interface ShpRead {
  readonly shapes: readonly (Geometry | null | string)[]
  /** What ended the reading early, or null. */
  readonly flaw: string | null
}

const HEADER_BYTES = 100
const FILE_CODE = 9994
const BREATH = 5000

/**
 * Shapes of a .shp file (ESRI Shapefile Technical Description, July 1998), in the file's own coordinates. Heights come
 * along, measures (M) are dropped. The index (.shx) is not needed.
 */
export async function readShp(bytes: Uint8Array, pace: Pace): Promise<ShpRead> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < HEADER_BYTES || view.getInt32(0) !== FILE_CODE) return { shapes: [], flaw: 'is no .shp file' }
  const told = view.getInt32(24) * 2
  const end = Math.min(told, bytes.length)
  const shapes: (Geometry | null | string)[] = []
  let at = HEADER_BYTES
  while (at + 12 <= end) {
    const contentBytes = view.getInt32(at + 4) * 2
    const next = at + 8 + contentBytes
    if (contentBytes < 4 || next > end)
      return { shapes, flaw: `is cut short or damaged in record ${shapes.length + 1}` }
    shapes.push(shapeOf(view, at + 8, contentBytes))
    at = next
    if (shapes.length % BREATH === 0) await pace(at, end)
  }
  return { shapes, flaw: told > bytes.length ? `is cut short after record ${shapes.length}` : null }
}

const BASE = { 1: 'Point', 3: 'PolyLine', 5: 'Polygon', 8: 'MultiPoint' } as const

function shapeOf(view: DataView, at: number, bytes: number): Geometry | null | string {
  const code = view.getInt32(at, true)
  if (code === 0) return null
  const base = BASE[(code % 10) as keyof typeof BASE]
  const hasZ = code > 10 && code < 20
  if (!base || code > 28)
    return code === 31 ? 'is a MultiPatch, which is no flat shape' : `has the unknown shape type ${code}`
  if (base === 'Point') {
    if (bytes < (hasZ ? 28 : 20)) return DAMAGED
    const [x, y] = [view.getFloat64(at + 4, true), view.getFloat64(at + 12, true)]
    if (!(x > NO_DATA && y > NO_DATA)) return null
    return { type: 'Point', coordinates: hasZ ? [x, y, view.getFloat64(at + 20, true)] : [x, y] }
  }
  const isMultiPoint = base === 'MultiPoint'
  if (bytes < (isMultiPoint ? 40 : 44)) return DAMAGED
  const partCount = isMultiPoint ? 0 : view.getInt32(at + 36, true)
  const pointCount = view.getInt32(at + (isMultiPoint ? 36 : 40), true)
  const partsAt = at + 44
  const pointsAt = isMultiPoint ? at + 40 : partsAt + 4 * partCount
  const heightsAt = pointsAt + 16 * pointCount + 16
  const needed = (hasZ ? heightsAt + 8 * pointCount : heightsAt - 16) - at
  if (partCount < 0 || pointCount < 0 || needed > bytes) return DAMAGED
  if (pointCount === 0) return null
  const point = (i: number): Position => {
    const [x, y] = [view.getFloat64(pointsAt + 16 * i, true), view.getFloat64(pointsAt + 16 * i + 8, true)]
    return hasZ ? [x, y, view.getFloat64(heightsAt + 8 * i, true)] : [x, y]
  }
  const points = Array.from({ length: pointCount }, (_, i) => point(i))
  if (isMultiPoint) return { type: 'MultiPoint', coordinates: points }
  const starts = Array.from({ length: partCount }, (_, i) => view.getInt32(partsAt + 4 * i, true))
  if (starts.some((start, i) => start < 0 || start > pointCount || start < (starts[i - 1] ?? 0))) return DAMAGED
  const parts = starts.map((start, i) => points.slice(start, starts[i + 1] ?? pointCount)).filter((p) => p.length > 0)
  return base === 'Polygon' ? areaOf(parts) : lineOf(parts)
}

const DAMAGED = 'is damaged: its numbers of parts and points do not fit its length'
/** Any number smaller than this stands for "no data" (p. 2). */
const NO_DATA = -1e38

function lineOf(parts: Position[][]): Geometry | null {
  if (parts.length === 0) return null
  return parts.length === 1
    ? { type: 'LineString', coordinates: parts[0]! }
    : { type: 'MultiLineString', coordinates: parts }
}

/** Outer rings run clockwise, holes the other way (p. 8); a shape all of whose rings run the wrong way is read all the same. */
function areaOf(parts: Position[][]): Geometry | null {
  if (parts.length === 0) return null
  if (parts.length === 1) return { type: 'Polygon', coordinates: parts }
  const polygons = polygonsOf(parts.map((ring) => [...ring].reverse())).map((rings) =>
    rings.map((ring) => [...ring].reverse()),
  )
  return polygons.length === 1
    ? { type: 'Polygon', coordinates: polygons[0]! }
    : { type: 'MultiPolygon', coordinates: polygons }
}
