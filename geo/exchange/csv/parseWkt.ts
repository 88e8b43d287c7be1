import type { Geometry, Position } from 'geojson'

/** What a well-known text says; `srid` is told by the extended form (`SRID=4326;POINT…`). */
export type WktRead = { readonly geometry: Geometry | null; readonly srid: number | null } | { readonly reason: string }

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y
const DEEPEST = 8

class Unreadable extends Error {}

/** Well-known text (OGC 06-103r4 §7): heights come along, measures are dropped, EMPTY is null. */
export function parseWkt(text: string): WktRead {
  const srid = /^\s*SRID\s*=\s*(\d+)\s*;/i.exec(text)
  const reader = readerOf(text.slice(srid?.[0].length ?? 0))
  try {
    const geometry = readTagged(reader, 0)
    reader.end()
    return { geometry, srid: srid ? Number(srid[1]) : null }
  } catch (error) {
    if (error instanceof Unreadable) return { reason: error.message }
    throw error
  }
}

type Reader = ReturnType<typeof readerOf>

function readerOf(text: string) {
  let at = 0
  const fail = (wanted: string): never => {
    const there = text.slice(at, at + 12)
    throw new Unreadable(
      `is no well-known text: ${wanted} is wanted ${there === '' ? 'at its end' : `at ${JSON.stringify(there)}`}`,
    )
  }
  const space = () => {
    while (at < text.length && text.charCodeAt(at) <= 32) at += 1
  }
  return {
    fail,
    word(): string {
      space()
      const from = at
      while (at < text.length && /[A-Za-z]/.test(text[at]!)) at += 1
      return text.slice(from, at).toUpperCase()
    },
    peekWord(): string {
      const from = at
      const word = this.word()
      at = from
      return word
    },
    is(sign: string): boolean {
      space()
      if (text[at] !== sign) return false
      at += 1
      return true
    },
    number(): number | null {
      space()
      NUMBER.lastIndex = at
      const found = NUMBER.exec(text)?.[0]
      if (found === undefined) return null
      at += found.length
      return Number(found)
    },
    end(): void {
      space()
      if (at < text.length) fail('nothing more')
    },
  }
}

interface Form {
  readonly hasM: boolean
  readonly hasZ: boolean
}

function readTagged(reader: Reader, depth: number): Geometry | null {
  if (depth > DEEPEST) throw new Unreadable(`is nested more than ${DEEPEST} deep`)
  const word = reader.word()
  const joined = /^(.*?)(ZM|Z|M)$/.exec(word)
  const [name, glued] = joined && NAMES.has(joined[1]!) ? [joined[1]!, joined[2]!] : [word, '']
  let form = glued
  if (/^(?:ZM|Z|M)$/.test(reader.peekWord())) form = reader.word()
  if (!NAMES.has(name)) throw new Unreadable(`is no well-known text of a shape: it begins with ${JSON.stringify(name)}`)
  if (reader.peekWord() === 'EMPTY') {
    reader.word()
    return null
  }
  return bodyOf(reader, name, { hasM: form.includes('M'), hasZ: form.includes('Z') }, depth)
}

const NAMES = new Set([
  'POINT',
  'LINESTRING',
  'POLYGON',
  'MULTIPOINT',
  'MULTILINESTRING',
  'MULTIPOLYGON',
  'GEOMETRYCOLLECTION',
])

function bodyOf(reader: Reader, name: string, form: Form, depth: number): Geometry {
  const positions = () => listOf(reader, () => positionOf(reader, form))
  const rings = () => listOf(reader, positions)
  switch (name) {
    case 'POINT':
      return { type: 'Point', coordinates: positions()[0]! }
    case 'LINESTRING':
      return { type: 'LineString', coordinates: positions() }
    case 'POLYGON':
      return { type: 'Polygon', coordinates: rings() }
    case 'MULTIPOINT':
      return {
        type: 'MultiPoint',
        coordinates: listOf(reader, () => {
          const inner = reader.is('(')
          const position = positionOf(reader, form)
          if (inner && !reader.is(')')) reader.fail('“)”')
          return position
        }),
      }
    case 'MULTILINESTRING':
      return { type: 'MultiLineString', coordinates: rings() }
    case 'MULTIPOLYGON':
      return { type: 'MultiPolygon', coordinates: listOf(reader, rings) }
    default:
      return {
        type: 'GeometryCollection',
        geometries: listOf(reader, () => readTagged(reader, depth + 1)).filter((part) => part !== null),
      }
  }
}

function listOf<T>(reader: Reader, one: () => T): T[] {
  if (reader.peekWord() === 'EMPTY') {
    reader.word()
    return []
  }
  if (!reader.is('(')) reader.fail('“(”')
  const list: T[] = []
  do list.push(one())
  while (reader.is(','))
  if (!reader.is(')')) reader.fail('“)”')
  return list
}

function positionOf(reader: Reader, { hasM, hasZ }: Form): Position {
  const numbers: number[] = []
  for (let next = reader.number(); next !== null; next = reader.number()) numbers.push(next)
  if (numbers.length < 2 || numbers.length > 4) reader.fail('two to four numbers')
  return hasM && !hasZ ? numbers.slice(0, 2) : numbers.slice(0, 3)
}
