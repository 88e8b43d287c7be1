import type { Geometry } from 'geojson'
import { positionsOf } from '../../plane/geometry.ts'
import { toEwkb } from '../../store/ewkb.ts'

const HEADER_BYTES = 8
const ENVELOPE_BYTES = 32
const LON_LAT_SRID = 4326
/** Little-endian, envelope of x and y. */
const FLAGS = 0b0000_0011

/** A GeoPackageBinary blob (OGC 12-128r18 §2.1.3) of a lon/lat geometry, with its envelope. */
export function writeGeoPackageBlob(geometry: Geometry): Uint8Array {
  const wkb = isoWkb(geometry)
  const blob = new Uint8Array(HEADER_BYTES + ENVELOPE_BYTES + wkb.length)
  const view = new DataView(blob.buffer)
  view.setUint16(0, 0x4750)
  blob[3] = FLAGS
  view.setInt32(4, LON_LAT_SRID, true)
  const box = boxOf(geometry)
  ;[box.west, box.east, box.south, box.north].forEach((value, i) => {
    view.setFloat64(HEADER_BYTES + 8 * i, value, true)
  })
  blob.set(wkb, HEADER_BYTES + ENVELOPE_BYTES)
  return blob
}

export function boxOf(geometry: Geometry): { west: number; east: number; south: number; north: number } {
  const box = { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity }
  for (const [lon, lat] of positionsOf(geometry)) {
    box.west = Math.min(box.west, lon!)
    box.east = Math.max(box.east, lon!)
    box.south = Math.min(box.south, lat!)
    box.north = Math.max(box.north, lat!)
  }
  return box
}

/** The store's extended binary as ISO has it: without the SRID, heights told by 1000 added to the type. */
function isoWkb(geometry: Geometry): Uint8Array {
  const hex = toEwkb(geometry)
  const bytes = Uint8Array.from({ length: hex.length / 2 }, (_, i) => Number.parseInt(hex.slice(2 * i, 2 * i + 2), 16))
  const view = new DataView(bytes.buffer)
  const plain = new Uint8Array(bytes.length - 4)
  plain.set(bytes.subarray(0, 5))
  plain.set(bytes.subarray(9), 5)
  const out = new DataView(plain.buffer)
  out.setUint32(1, view.getUint32(1, true) & ~0x20000000, true)
  isoTypes(out, 0)
  return plain
}

/** Rewrites the type of a geometry and of its parts; gives where it ends. */
function isoTypes(view: DataView, from: number): number {
  const code = view.getUint32(from + 1, true)
  const hasZ = code >>> 31 === 1
  const type = code & 0xff
  view.setUint32(from + 1, type + (hasZ ? 1000 : 0), true)
  const positionBytes = hasZ ? 24 : 16
  let at = from + 5
  const count = () => {
    at += 4
    return view.getUint32(at - 4, true)
  }
  const line = () => {
    const positions = count()
    at += positions * positionBytes
  }
  if (type === 1) at += positionBytes
  else if (type === 2) line()
  else {
    const parts = count()
    for (let i = 0; i < parts; i++) {
      if (type === 3) line()
      else at = isoTypes(view, at)
    }
  }
  return at
}
