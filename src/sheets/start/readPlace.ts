import type { LonLat } from '../../../geo/plane/lonLat.ts'

/**
 * Reads a place as people write it, latitude first: "46.3374, 15.6412", "46.3374 N 15.6412 E", "46°20'15"N 15°38'28"E".
 * Empty is null: not told. Letters, where there are any, say which is which.
 */
export function readPlace(text: string): LonLat | null | 'unread' {
  if (text.trim() === '') return null
  const PART =
    /([-+−]?\d+(?:\.\d+)?)\s*(?:°|d)?\s*(?:(\d+(?:\.\d+)?)\s*['′])?\s*(?:(\d+(?:\.\d+)?)\s*(?:"|″|''))?\s*([NSEWnsew])?/g
  const parts = [...text.matchAll(PART)]
  const rest = text.replace(PART, '').replace(/[\s,;/]/g, '')
  if (parts.length !== 2 || rest !== '') return 'unread'
  const [first, second] = parts.map(readPart) as [Part, Part]
  const swapped = first.axis === 'lon' || second.axis === 'lat'
  if (first.axis !== null && first.axis === second.axis) return 'unread'
  const [lat, lon] = swapped ? [second.degrees, first.degrees] : [first.degrees, second.degrees]
  if (swapped && first.axis !== 'lon') return 'unread'
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? [lon, lat] : 'unread'
}

interface Part {
  readonly degrees: number
  readonly axis: 'lat' | 'lon' | null
}

function readPart([, degrees, minutes = '0', seconds = '0', letter = '']: RegExpMatchArray): Part {
  const plain = degrees!.replace('−', '-')
  const size = Math.abs(Number(plain)) + Number(minutes) / 60 + Number(seconds) / 3600
  const side = letter.toUpperCase()
  const sign = plain.startsWith('-') || side === 'S' || side === 'W' ? -1 : 1
  return { degrees: sign * size, axis: side === '' ? null : side === 'N' || side === 'S' ? 'lat' : 'lon' }
}
