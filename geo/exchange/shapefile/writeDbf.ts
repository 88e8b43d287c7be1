import type { ColumnType, GivenColumn, GivenFeature } from '../layers/givenLayers.ts'

/** What a dBASE table could not hold as it was: record number from 1 (0: the column itself), column, reason. */
export interface DbfNote {
  readonly n: number
  readonly field: string
  readonly reason: string
}

const NAME_LETTERS = 10
const MOST_BYTES = 254
const UTF8 = new TextEncoder()

interface Column {
  readonly from: string
  readonly name: string
  readonly letter: 'C' | 'N' | 'L' | 'D'
  readonly bytes: number
  readonly decimals: number
  readonly cells: readonly Uint8Array[]
}

const LETTERS: Readonly<Record<ColumnType, Column['letter']>> = {
  text: 'C',
  number: 'N',
  whole: 'N',
  'yes/no': 'L',
  day: 'D',
}

/** Values as a dBASE III table in UTF-8 (said by a .cpg beside it); names cut to ten letters, texts to 254 bytes. */
export function writeDbf(
  given: readonly GivenColumn[],
  features: readonly GivenFeature[],
): { dbf: Uint8Array; notes: DbfNote[] } {
  const notes: DbfNote[] = []
  const names = new Set<string>()
  const columns = given.map((column) => columnOf(column, features, names, notes))
  const recordBytes = 1 + columns.reduce((sum, { bytes }) => sum + bytes, 0)
  const headerBytes = 32 + 32 * columns.length + 1
  const dbf = new Uint8Array(headerBytes + recordBytes * features.length + 1)
  const view = new DataView(dbf.buffer)
  dbf.set([3, 80, 1, 1])
  view.setUint32(4, features.length, true)
  view.setUint16(8, headerBytes, true)
  view.setUint16(10, recordBytes, true)
  columns.forEach(({ name, letter, bytes, decimals }, i) => {
    const at = 32 + 32 * i
    dbf.set(UTF8.encode(name), at)
    dbf[at + 11] = letter.charCodeAt(0)
    dbf[at + 16] = bytes
    dbf[at + 17] = decimals
  })
  dbf[headerBytes - 1] = 0x0d
  features.forEach((_, n) => {
    let at = headerBytes + n * recordBytes
    dbf[at++] = 0x20
    for (const { cells, bytes, letter } of columns) {
      dbf.fill(0x20, at, at + bytes)
      dbf.set(cells[n]!, letter === 'N' ? at + bytes - cells[n]!.length : at)
      at += bytes
    }
  })
  dbf[dbf.length - 1] = 0x1a
  return { dbf, notes }
}

function columnOf(
  { name, type }: GivenColumn,
  features: readonly GivenFeature[],
  names: Set<string>,
  notes: DbfNote[],
): Column {
  const short = freeName(name, names)
  const texts = features.map(({ values }) => (Object.hasOwn(values, name) ? cellText(values[name]!, type) : ''))
  const cells = texts.map((text, i) => {
    const bytes = UTF8.encode(text)
    if (bytes.length <= MOST_BYTES) return bytes
    const kept = cutWhole(bytes, MOST_BYTES)
    notes.push({ n: i + 1, field: name, reason: `is longer than ${MOST_BYTES} bytes and was cut` })
    return kept
  })
  const letter = LETTERS[type]
  const decimals = letter === 'N' ? most(texts, (text) => text.split('.')[1]?.length ?? 0) : 0
  const fixed = letter === 'L' ? 1 : letter === 'D' ? 8 : null
  const bytes =
    fixed ??
    Math.max(
      1,
      most(cells, ({ length }) => length),
    )
  return { from: name, name: short, letter, bytes, decimals, cells }
}

/** The name cut to ten letters of ASCII, with a number where that is taken. */
function freeName(name: string, names: Set<string>): string {
  const plain = name.replace(/[^A-Za-z0-9_]/g, '_').slice(0, NAME_LETTERS) || 'column'
  let free = plain
  for (let more = 2; names.has(free.toLowerCase()); more++)
    free = `${plain.slice(0, NAME_LETTERS - String(more).length - 1)}_${more}`
  names.add(free.toLowerCase())
  return free
}

function cellText(value: string | number | boolean, type: ColumnType): string {
  if (type === 'yes/no') return value === true ? 'T' : 'F'
  if (type === 'day') return String(value).replaceAll('-', '')
  const text = String(value)
  return type === 'number' && text.includes('e') ? (value as number).toFixed(15) : text
}

/** The first bytes of UTF-8 text without half a letter at the end. */
function cutWhole(bytes: Uint8Array, most: number): Uint8Array {
  let end = most
  while (end > 0 && (bytes[end]! & 0xc0) === 0x80) end -= 1
  return bytes.subarray(0, end)
}

function most<T>(list: readonly T[], of: (one: T) => number): number {
  return list.reduce((max, one) => Math.max(max, of(one)), 0)
}
