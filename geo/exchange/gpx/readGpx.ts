import type { Pace } from '../../store/pace.ts'
import type { Fault } from '../archive.ts'
import { readXml, textOf, type XmlElement } from '../xml/readXml.ts'

/** One measured position. `hdop` is the horizontal dilution of precision that the device told. */
export interface GpxPoint {
  /** Degrees, WGS 84. */
  readonly lon: number
  readonly lat: number
  readonly heightM: number | null
  /** As the file has it (ISO 8601). */
  readonly time: string | null
  readonly hdop: number | null
}

interface GpxNamed {
  /** How a person finds it in its file: `track 2 (Hedge)`. */
  readonly where: string
  readonly name: string | null
  readonly description: string | null
  readonly type: string | null
  /** Values in its extensions, by their name without the prefix. */
  readonly extra: Readonly<Record<string, string>>
}

/** A track in its segments (between two of them the device saw no satellites, or was off), or a route in one. */
export interface GpxLine extends GpxNamed {
  readonly of: 'track' | 'route'
  readonly segments: readonly (readonly GpxPoint[])[]
}

export interface GpxWaypoint extends GpxNamed {
  readonly point: GpxPoint
  readonly symbol: string | null
}

export interface GpxRead {
  readonly waypoints: readonly GpxWaypoint[]
  readonly lines: readonly GpxLine[]
  readonly notes: readonly Fault[]
}

/**
 * Waypoints, routes and tracks of a GPX file (1.1; 1.0 is read too). Positions that are none are left out and noted; where
 * the file breaks off, what stood before is there. Reads without a break unless `pace` gives it one.
 */
export async function readGpx(bytes: Uint8Array, file: string, pace: Pace): Promise<GpxRead> {
  const notes: Fault[] = []
  const waypoints: GpxWaypoint[] = []
  const lines: GpxLine[] = []
  const counted = { trk: 0, rte: 0, wpt: 0 }
  let segments: GpxPoint[][] = []
  let faulty = 0
  const note = (record: string, field: string, reason: string) => notes.push({ file, record, field, reason })
  const lineHere = () =>
    segments.length === 0 ? `line ${counted.trk + counted.rte + 1}` : `segment ${segments.length}`
  const takePoint = (element: XmlElement) => {
    const point = pointOf(element)
    if (typeof point !== 'string') segments.at(-1)?.push(point)
    else {
      faulty += 1
      if (faulty <= MOST_NOTED)
        note(`line ${element.line} of the file`, 'lat, lon', `${point}; left out of ${lineHere()}`)
    }
  }
  const { root, flaw } = await readXml(
    bytes,
    {
      opened({ name }) {
        if (name === 'trk') segments = []
        else if (name === 'rte') segments = [[]]
        else if (name === 'trkseg') segments.push([])
      },
      closed(element) {
        switch (element.name) {
          case 'trkpt':
          case 'rtept':
            takePoint(element)
            return true
          case 'trkseg':
            return true
          case 'trk':
          case 'rte': {
            const of = element.name === 'trk' ? 'track' : 'route'
            counted[element.name] += 1
            lines.push({ of, ...namedOf(element, `${of} ${counted[element.name]}`), segments })
            segments = []
            return true
          }
          case 'wpt': {
            counted.wpt += 1
            const named = namedOf(element, `waypoint ${counted.wpt}`)
            const point = pointOf(element)
            if (typeof point === 'string') note(named.where, 'lat, lon', `${point}; left out`)
            else waypoints.push({ ...named, point, symbol: textOf(element, 'sym') })
            return true
          }
          default:
            return false
        }
      },
    },
    pace,
  )
  if (faulty > MOST_NOTED) note('', 'lat, lon', `and ${faulty - MOST_NOTED} more positions are left out`)
  if (flaw) note(flaw.line === null ? '' : `line ${flaw.line}`, '', flaw.reason)
  else if (root?.name !== 'gpx') note('', '', `is no GPX: its outermost element is ${root?.name ?? 'missing'}`)
  return { waypoints, lines, notes }
}

const MOST_NOTED = 50

/** The position of a point element, or what is wrong with it. */
function pointOf(element: XmlElement): GpxPoint | string {
  const [lon, lat] = [element.attributes.lon, element.attributes.lat]
  if (lon === undefined || lat === undefined) return `has no ${lat === undefined ? 'lat' : 'lon'}`
  const [x, y] = [numberOf(lon), numberOf(lat)]
  if (x === null || y === null) return `${JSON.stringify(x === null ? lon : lat)} is not a number`
  if (Math.abs(y) > 90 || Math.abs(x) > 180) return `lat ${lat}, lon ${lon} is no place on earth`
  const height = textOf(element, 'ele')
  const hdop = textOf(element, 'hdop')
  return {
    lon: x,
    lat: y,
    heightM: height === null ? null : numberOf(height),
    time: textOf(element, 'time'),
    hdop: hdop === null ? null : numberOf(hdop),
  }
}

/** An xsd:decimal (and, as some devices write it, with an exponent). */
function numberOf(text: string): number | null {
  return /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/.test(text) ? Number(text) : null
}

function namedOf(element: XmlElement, where: string): GpxNamed {
  const name = textOf(element, 'name')
  return {
    where: name === null ? where : `${where} (${name})`,
    name,
    description: textOf(element, 'desc') ?? textOf(element, 'cmt'),
    type: textOf(element, 'type'),
    extra: Object.fromEntries(element.children.filter(({ name }) => name === 'extensions').flatMap(leavesOf)),
  }
}

/** Values of the innermost elements, by name. */
function leavesOf(element: XmlElement): [string, string][] {
  return element.children.flatMap((child): [string, string][] =>
    child.children.length > 0 ? leavesOf(child) : child.text === '' ? [] : [[child.name, child.text]],
  )
}
