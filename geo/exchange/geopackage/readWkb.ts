import type { Geometry, Position } from 'geojson'

/** The geometry of a GeoPackage's blob; null where it is empty. */
export type BlobRead = { readonly geometry: Geometry | null } | { readonly reason: string }

const ENVELOPE_BYTES = [0, 32, 48, 48, 64]
const NAMES = [
  '',
  'Point',
  'LineString',
  'Polygon',
  'MultiPoint',
  'MultiLineString',
  'MultiPolygon',
  'GeometryCollection',
] as const
const CURVED = new Set([8, 9, 10, 11, 12, 13, 14, 15, 16, 17])
const DEEPEST = 8

class Unreadable extends Error {}

/** A GeoPackageBinary blob (OGC 12-128r18 §2.1.3): its header, then well-known binary (ISO's codes, or PostGIS' flags). */
export function readGeoPackageBlob(blob: Uint8Array): BlobRead {
  const view = new DataView(blob.buffer, blob.byteOffset, blob.byteLength)
  if (blob.length < 8 || view.getUint16(0) !== 0x4750) return { reason: 'is no geometry of a GeoPackage' }
  const flags = blob[3]!
  if (flags & 0x20) return { reason: 'is of an extended kind, which is not read here' }
  const envelope = ENVELOPE_BYTES[(flags >> 1) & 7]
  if (envelope === undefined) return { reason: 'is damaged: its header names no envelope' }
  try {
    return { geometry: readWkb(view, 8 + envelope) }
  } catch (error) {
    if (error instanceof Unreadable) return { reason: error.message }
    if (error instanceof RangeError) return { reason: 'is cut short' }
    throw error
  }
}

function readWkb(view: DataView, from: number): Geometry | null {
  let at = from
  const read = (depth: number): Geometry | null => {
    if (depth > DEEPEST) throw new Unreadable(`is nested more than ${DEEPEST} deep`)
    const little = view.getUint8(at) === 1
    at += 1
    const uint = () => {
      at += 4
      return view.getUint32(at - 4, little)
    }
    const double = () => {
      at += 8
      return view.getFloat64(at - 8, little)
    }
    const code = uint()
    if (code & 0x20000000) at += 4
    const form = Math.floor((code & 0xffff) / 1000)
    const [hasZ, hasM] = [form === 1 || form === 3 || code >>> 31 === 1, form >= 2 || (code & 0x40000000) !== 0]
    const plain = (code & 0xffff) % 1000
    if (CURVED.has(plain)) throw new Unreadable('has curves, which are not read here: make them straight lines first')
    const name = NAMES[plain]
    if (!name) throw new Unreadable(`has the unknown shape type ${plain}`)
    const position = (): Position => {
      const p = hasZ ? [double(), double(), double()] : [double(), double()]
      if (hasM) at += 8
      return p
    }
    const many = <T>(one: () => T): T[] => {
      const count = uint()
      if (count > view.byteLength) throw new RangeError('more parts than bytes')
      return Array.from({ length: count }, one)
    }
    if (name === 'Point') {
      const coordinates = position()
      return Number.isNaN(coordinates[0]) ? null : { type: name, coordinates }
    }
    if (name === 'LineString') return { type: name, coordinates: many(position) }
    if (name === 'Polygon') return { type: name, coordinates: many(() => many(position)) }
    const parts = many(() => read(depth + 1)).filter((part) => part !== null)
    if (name === 'GeometryCollection') return { type: name, geometries: parts }
    const single = name.slice('Multi'.length)
    if (parts.some(({ type }) => type !== single)) throw new Unreadable(`is a ${name} with parts of another type`)
    return { type: name, coordinates: parts.map((part) => (part as { coordinates: unknown }).coordinates) } as Geometry
  }
  return read(0)
}
