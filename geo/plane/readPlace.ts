import type { LonLat, Metres } from './lonLat.ts'

/** A typed place: on the earth, in metres from the farm's middle, or what is wrong with what was typed. */
export type TypedPlace =
  | { readonly as: 'lonLat'; readonly at: LonLat }
  | { readonly as: 'metres'; readonly at: Metres }
  | { readonly as: 'fault'; readonly detail: string }

const fault = (detail: string): TypedPlace => ({ as: 'fault', detail })

const unread = fault('This can’t be read as a place. Type latitude, longitude: 46.3374, 15.6412.')

const METRES_PER_FOOT = 0.3048

/**
 * Reads a place as people write it, latitude first where no letter says otherwise: decimal degrees, degrees and minutes,
 * or degrees, minutes and seconds, with N, S, E, W before or behind or none, with any of the usual marks (° ' " ′ ″ ’ ”
 * : d) or spaces alone, with a point or a comma before decimals. Or metres (m) or feet (ft) east and north of the farm's
 * middle: "12.5 m, -3 m", "12.5 m E 3 m S".
 */
export const readPlace = (text: string): TypedPlace => {
  const plain = normalised(text)
  const asWritten = readParts(plain)
  if (asWritten !== null) return asWritten
  return readParts(withPoints(plain)) ?? unread
}

/** One spelling for each mark: ° ' " and the minus sign; no spaces at the ends. */
const normalised = (text: string): string =>
  text
    .replace(/[−–‒]/g, '-')
    .replace(/[º˚]|\bdeg\b|(?<=\d)\s*d(?=[\s\d])/gi, '°')
    .replace(/''|′′|’’|[″”“ʺ˝]/g, '"')
    .replace(/[′’‘ʹ´`]/g, "'")
    .replace(/\u00a0|\u202f|\u2009/g, ' ')
    .trim()

/** Decimal commas turned into points: those between digits, but for the middle one of a list of four. */
const withPoints = (text: string): string =>
  text.replace(/^([-+]?\d+),(\d+),([-+]?\d+),(\d+)$/, '$1.$2 $3.$4').replace(/(\d),(?=\d)/g, '$1.')

const number = String.raw`\d+(?:\.\d*)?|\.\d+`

const readParts = (text: string): TypedPlace | null => readMetres(text) ?? readDegrees(text)

const METRES = new RegExp(
  String.raw`^([EWNS])?\s*([-+]?(?:${number}))\s*(m|ft)\.?\s*([EWNS])?\s*[,;/]?\s*([EWNS])?\s*([-+]?(?:${number}))\s*(m|ft)\.?\s*([EWNS])?$`,
  'i',
)

const readMetres = (text: string): TypedPlace | null => {
  const match = METRES.exec(text)
  if (match === null) return null
  const [, before1, number1, unit1, behind1, before2, number2, unit2, behind2] = match
  if ((before1 && behind1) || (before2 && behind2)) return null
  const first = measured(number1!, unit1!, before1 ?? behind1)
  const second = measured(number2!, unit2!, before2 ?? behind2)
  if (first.axis !== null && first.axis === second.axis)
    return fault('Both parts say how far along the same line. One is to be east or west, the other north or south.')
  const isTurned = first.axis === 'lat' || second.axis === 'lon'
  const [east, north] = isTurned ? [second, first] : [first, second]
  return { as: 'metres', at: [east.value, north.value] }
}

const measured = (digits: string, unit: string, letter: string | undefined): Part => {
  const m = Number(digits) * (unit.toLowerCase() === 'ft' ? METRES_PER_FOOT : 1)
  return { value: signOf(letter) * m, axis: axisOf(letter) }
}

interface Part {
  readonly value: number
  readonly axis: 'lat' | 'lon' | null
}

const signOf = (letter: string | undefined): 1 | -1 => (/[SW]/i.test(letter ?? '') ? -1 : 1)
const axisOf = (letter: string | undefined): Part['axis'] => {
  if (!letter) return null
  return /[NS]/i.test(letter) ? 'lat' : 'lon'
}

/** A bit of what was typed: a number, a letter, a sign, a mark, or what parts two coordinates. */
type Bit = string

const BITS = /\d+(?:\.\d*)?|\.\d+|[NSEW]|[-+°:'",;/]/gi
const isNumber = (bit: Bit): boolean => /\d/.test(bit)
const isParting = (bit: Bit): boolean => /[,;/]/.test(bit)
const isLetter = (bit: Bit): boolean => /[NSEW]/i.test(bit)

const readDegrees = (text: string): TypedPlace | null => {
  if (text.replace(BITS, '').trim() !== '') return null
  const pair = halves(text.match(BITS) ?? [], text)
  if (pair === null) return null
  const [first, second] = pair.map(angle) as [Part | string | null, Part | string | null]
  if (first === null || second === null) return null
  if (typeof first === 'string') return fault(first)
  if (typeof second === 'string') return fault(second)
  if (first.axis !== null && first.axis === second.axis)
    return fault('Both parts are told to be along the same line. One is to be N or S, the other E or W.')
  const isTurned = first.axis === 'lon' || second.axis === 'lat'
  const [lat, lon] = isTurned ? [second.value, first.value] : [first.value, second.value]
  if (Math.abs(lat) > 90) return fault('Latitude runs to 90°, and is written first where no letter tells.')
  if (Math.abs(lon) > 180) return fault('Longitude runs to 180°.')
  return { as: 'lonLat', at: [lon, lat] }
}

/** What was typed of either coordinate: parted by a comma or the like, by letters, by marks, or by half of the numbers. */
const halves = (bits: readonly Bit[], text: string): readonly [readonly Bit[], readonly Bit[]] | null => {
  const partings = bits.filter(isParting).length
  if (partings > 1) return null
  const cut = (at: number, skip = 0): readonly [readonly Bit[], readonly Bit[]] | null =>
    at > 0 && at + skip < bits.length ? sameKind(bits.slice(0, at), bits.slice(at + skip)) : null
  if (partings === 1) return cut(bits.findIndex(isParting), 1)
  const letters = bits.flatMap((bit, i) => (isLetter(bit) ? [i] : []))
  if (letters.length > 0) return cut(letters[0] === 0 ? (letters[1] ?? 0) : letters[0]! + 1)
  const numbers = bits.flatMap((bit, i) => (isNumber(bit) ? [i] : []))
  const degrees = bits.flatMap((bit, i) => (bit === '°' ? [i] : []))
  const isClock = text.includes(':')
  const second =
    degrees.length === 2
      ? numbers.findLast((i) => i < degrees[1]!)
      : isClock
        ? numbers.find((i) => i > 0 && bits[i - 1] !== ':' && !(i === 1 && /[-+]/.test(bits[0]!)))
        : numbers.length % 2 === 0
          ? numbers[numbers.length / 2]
          : undefined
  if (second === undefined) return null
  return cut(/[-+]/.test(bits[second - 1] ?? '') ? second - 1 : second)
}

/** Both told in the same way where no mark says what a number is: else "46,5 15" could be read in two ways. */
const sameKind = (a: readonly Bit[], b: readonly Bit[]): readonly [readonly Bit[], readonly Bit[]] | null => {
  const isMarked = [...a, ...b].some((bit) => /[°:'"]/.test(bit))
  return isMarked || a.filter(isNumber).length === b.filter(isNumber).length ? [a, b] : null
}

const ANGLE = /^([NSEW])?([-+])?(#)[°:]?(?:(#)[':]?)?(?:(#)"?)?([NSEW])?$/i

/** Degrees of one coordinate, or what is wrong with it; null where it is none. */
const angle = (bits: readonly Bit[]): Part | string | null => {
  const numbers = bits.filter(isNumber)
  const match = ANGLE.exec(bits.map((bit) => (isNumber(bit) ? '#' : bit)).join(''))
  if (match === null) return null
  const [, before, sign, , , , behind] = match
  const letter = before ?? behind
  if (before && behind) return 'A letter stands both before and behind one part.'
  if (sign === '-' && letter) return 'Write a minus sign or a letter, not both.'
  if (numbers.slice(0, -1).some((digits) => digits.includes('.')))
    return 'Only the last of degrees, minutes and seconds may have decimals.'
  const [d, m = 0, s = 0] = numbers.map(Number)
  if (m >= 60 || s >= 60) return 'Minutes and seconds run below 60.'
  return { value: (sign === '-' ? -1 : 1) * signOf(letter) * (d! + m / 60 + s / 3600), axis: axisOf(letter) }
}
