import type { Geometry, Position } from 'geojson'

const TYPES = {
  Point: 1,
  LineString: 2,
  Polygon: 3,
  MultiPoint: 4,
  MultiLineString: 5,
  MultiPolygon: 6,
  GeometryCollection: 7,
} as const
const NAMES = Object.fromEntries(Object.entries(TYPES).map(([name, code]) => [code, name])) as Record<
  number,
  keyof typeof TYPES
>
const HAS_Z = 0x80000000
const HAS_SRID = 0x20000000
const LON_LAT_SRID = 4326

/** A geometry as hex EWKB in EPSG:4326 (PostGIS' extended form of OGC 06-103r4 well-known binary): every double bit for bit. */
export function toEwkb(geometry: Geometry): string {
  const hasZ = firstPosition(geometry).length > 2
  let view = new DataView(new ArrayBuffer(1024))
  let length = 0
  const room = (bytes: number) => {
    if (length + bytes <= view.byteLength) return
    const larger = new Uint8Array(Math.max(length + bytes, 2 * view.byteLength))
    larger.set(new Uint8Array(view.buffer, 0, length))
    view = new DataView(larger.buffer)
  }
  const uint = (value: number) => {
    room(4)
    view.setUint32(length, value, true)
    length += 4
  }
  const position = (p: Position) => {
    room(24)
    view.setFloat64(length, p[0]!, true)
    view.setFloat64(length + 8, p[1]!, true)
    if (hasZ) view.setFloat64(length + 16, p[2] ?? 0, true)
    length += hasZ ? 24 : 16
  }
  const line = (positions: Position[]) => {
    uint(positions.length)
    positions.forEach(position)
  }
  const rings = (polygon: Position[][]) => {
    uint(polygon.length)
    polygon.forEach(line)
  }
  const write = (g: Geometry, outer: boolean) => {
    room(1)
    view.setUint8(length, 1)
    length += 1
    uint((TYPES[g.type] | (hasZ ? HAS_Z : 0) | (outer ? HAS_SRID : 0)) >>> 0)
    if (outer) uint(LON_LAT_SRID)
    const parts = (inner: Geometry[]) => {
      uint(inner.length)
      for (const part of inner) write(part, false)
    }
    if (g.type === 'Point') position(g.coordinates)
    else if (g.type === 'LineString') line(g.coordinates)
    else if (g.type === 'Polygon') rings(g.coordinates)
    else if (g.type === 'MultiPoint') parts(g.coordinates.map((c) => ({ type: 'Point', coordinates: c })))
    else if (g.type === 'MultiLineString') parts(g.coordinates.map((c) => ({ type: 'LineString', coordinates: c })))
    else if (g.type === 'MultiPolygon') parts(g.coordinates.map((c) => ({ type: 'Polygon', coordinates: c })))
    else parts(g.geometries)
  }
  write(geometry, true)
  return hexOf(new Uint8Array(view.buffer, 0, length))
}

/** The geometry of hex EWKB as Postgres writes it (either byte order). */
export function fromEwkb(hex: string): Geometry {
  const view = new DataView(bytesOf(hex).buffer)
  let at = 0
  const read = (): Geometry => {
    const little = view.getUint8(at) === 1
    const uint = () => {
      at += 4
      return view.getUint32(at - 4, little)
    }
    const double = () => {
      at += 8
      return view.getFloat64(at - 8, little)
    }
    at += 1
    const code = uint()
    if (code & HAS_SRID) at += 4
    const name = NAMES[code & 0xff]
    const position = (): Position => (code & HAS_Z ? [double(), double(), double()] : [double(), double()])
    const many = <T>(one: () => T): T[] => Array.from({ length: uint() }, one)
    if (name === 'Point') return { type: name, coordinates: position() }
    if (name === 'LineString') return { type: name, coordinates: many(position) }
    if (name === 'Polygon') return { type: name, coordinates: many(() => many(position)) }
    if (name === 'GeometryCollection') return { type: name, geometries: many(read) }
    if (!name) throw new Error(`EWKB of an unknown geometry type ${code}`)
    const parts = many(() => (read() as { coordinates: unknown }).coordinates)
    return { type: name, coordinates: parts } as Geometry
  }
  return read()
}

function firstPosition(geometry: Geometry): Position {
  if (geometry.type === 'GeometryCollection') return geometry.geometries[0] ? firstPosition(geometry.geometries[0]) : []
  let inner: unknown = geometry.coordinates
  while (Array.isArray(inner) && Array.isArray(inner[0])) inner = inner[0]
  return inner as Position
}

/** Bytes of lower-case hex. */
function bytesOf(hex: string): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(hex.length / 2)
  for (let i = 0; i < bytes.length; i++)
    bytes[i] = (VALUES[hex.charCodeAt(2 * i)]! << 4) | VALUES[hex.charCodeAt(2 * i + 1)]!
  return bytes
}

const DIGITS = new TextEncoder().encode('0123456789abcdef')
/** The value of a digit by its character's code. */
const VALUES = Uint8Array.from({ length: 103 }, (_, code) => DIGITS.indexOf(code) & 15)

function hexOf(bytes: Uint8Array): string {
  const hex = new Uint8Array(2 * bytes.length)
  for (let i = 0; i < bytes.length; i++) {
    hex[2 * i] = DIGITS[bytes[i]! >> 4]!
    hex[2 * i + 1] = DIGITS[bytes[i]! & 15]!
  }
  return new TextDecoder().decode(hex)
}
