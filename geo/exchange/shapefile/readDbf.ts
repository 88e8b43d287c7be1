import type { Pace } from '../../store/pace.ts'
import { shown } from '../faults.ts'
import { decodeLegacy } from '../layers/decodeLegacy.ts'

/** One record's values by column; null where the record is struck out. */
export type DbfRecord = Readonly<Record<string, string | number | boolean>> | null

export interface DbfRead {
  readonly records: readonly DbfRecord[]
  /** What was assumed, and values that could not be read: record number (0: the whole file), field, reason. */
  readonly notes: readonly { readonly n: number; readonly field: string; readonly reason: string }[]
}

interface Column {
  readonly name: string
  readonly type: string
  readonly at: number
  readonly bytes: number
}

/** Code pages by the language byte of the header, as far as they are named by everyone alike. */
const PAGES: Readonly<Record<number, string>> = {
  3: 'windows-1252',
  87: 'windows-1252',
  101: 'ibm866',
  200: 'windows-1250',
  201: 'windows-1251',
  202: 'windows-1254',
  203: 'windows-1253',
}

const BREATH = 5000

/**
 * Records of a dBASE III table as shapefiles have it. `page` is the text of the .cpg file beside it, or null; without it
 * the header's language byte tells, else the text is taken for UTF-8 where it can be, else for Windows-1252.
 */
export async function readDbf(bytes: Uint8Array, page: string | null, pace: Pace): Promise<DbfRead> {
  const notes: { n: number; field: string; reason: string }[] = []
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < 33) return { records: [], notes: [{ n: 0, field: '', reason: 'is no .dbf table' }] }
  const count = view.getUint32(4, true)
  const headerBytes = view.getUint16(8, true)
  const recordBytes = view.getUint16(10, true)
  const decode = decoderFor(page, bytes[29]!, (reason) => notes.push({ n: 0, field: '', reason }))
  const columns = columnsOf(bytes, view, headerBytes, decode, (field, reason) => notes.push({ n: 0, field, reason }))
  const last = columns.at(-1)
  if (recordBytes === 0 || (last && last.at + last.bytes > recordBytes))
    return {
      records: [],
      notes: [...notes, { n: 0, field: '', reason: 'is damaged: its header does not fit its records' }],
    }
  const records: DbfRecord[] = []
  for (let n = 0; n < count; n++) {
    const at = headerBytes + n * recordBytes
    if (at + recordBytes > bytes.length) {
      notes.push({ n: 0, field: '', reason: `is cut short after record ${n} of ${count}` })
      break
    }
    records.push(bytes[at] === STRUCK_OUT ? null : recordOf(bytes, view, at, columns, decode, n + 1, notes))
    if (n % BREATH === 0) await pace(n, count)
  }
  return { records, notes }
}

const STRUCK_OUT = 0x2a
const HEADER_END = 0x0d

type Decode = (bytes: Uint8Array) => string

function decoderFor(page: string | null, language: number, note: (reason: string) => void): Decode {
  const named = page?.replace(/^\uFEFF/, '').trim() ?? ''
  const label = named === '' ? PAGES[language] : labelOf(named)
  if (label !== undefined) {
    try {
      const decoder = new TextDecoder(label)
      return (bytes) => decoder.decode(bytes)
    } catch {
      note(`has text in ${shown(named)}, an encoding that is not known here; taken for UTF-8 or Windows-1252`)
    }
  }
  let told = false
  return (bytes) => {
    const { text, assumed } = decodeLegacy(bytes)
    if (assumed !== null && !told) note(`does not say how its text is written; taken for ${assumed}`)
    told ||= assumed !== null
    return text
  }
}

/** What a .cpg says, as TextDecoder names it: `UTF-8`, `1252`, `ANSI 1250`, `88591`, `ISO 8859-2`. */
function labelOf(named: string): string {
  const plain = named.toLowerCase().replace(/\s+/g, ' ')
  const windows = /^(?:ansi |cp|windows-?)?(125\d)$/.exec(plain)?.[1]
  if (windows) return `windows-${windows}`
  const iso = /^(?:iso[ -]?)?8859-?(\d{1,2})$/.exec(plain)?.[1]
  if (iso) return `iso-8859-${iso}`
  return plain === 'utf8' ? 'utf-8' : plain === '65001' ? 'utf-8' : plain
}

function columnsOf(
  bytes: Uint8Array,
  view: DataView,
  headerBytes: number,
  decode: Decode,
  note: (field: string, reason: string) => void,
): Column[] {
  const columns: Column[] = []
  const seen = new Set<string>()
  let at = 1
  for (let from = 32; from + 32 <= headerBytes && from + 32 <= bytes.length && bytes[from] !== HEADER_END; from += 32) {
    const letters = bytes.subarray(from, from + 11)
    const zero = letters.indexOf(0)
    const told = decode(zero < 0 ? letters : letters.subarray(0, zero)).trim() || `column ${columns.length + 1}`
    let name = told
    for (let more = 2; seen.has(name.toLowerCase()); more++) name = `${told}_${more}`
    if (name !== told) note(told, `stands twice among the columns; the later is read as ${name}`)
    seen.add(name.toLowerCase())
    const type = String.fromCharCode(bytes[from + 11]!)
    if (type === 'M' || type === 'G') note(name, 'holds memos, which lie in another file and are not read')
    const size = type === 'C' ? view.getUint16(from + 16, true) : bytes[from + 16]!
    columns.push({ name, type, at, bytes: size })
    at += size
  }
  return columns
}

function recordOf(
  bytes: Uint8Array,
  view: DataView,
  at: number,
  columns: readonly Column[],
  decode: Decode,
  n: number,
  notes: { n: number; field: string; reason: string }[],
): DbfRecord {
  const values: Record<string, string | number | boolean> = {}
  for (const column of columns) {
    const from = at + column.at
    const value = cellOf(bytes.subarray(from, from + column.bytes), view, from, column, decode)
    if (value === null) continue
    if (typeof value === 'object') notes.push({ n, field: column.name, reason: value.reason })
    else values[column.name] = value
  }
  return values
}

function cellOf(
  raw: Uint8Array,
  view: DataView,
  at: number,
  { type, bytes }: Column,
  decode: Decode,
): string | number | boolean | null | { reason: string } {
  if (type === 'I' && bytes === 4) return view.getInt32(at, true)
  if ((type === 'O' || type === 'B') && bytes === 8) return view.getFloat64(at, true)
  if (type === 'M' || type === 'G' || type === 'P') return null
  const zero = raw.indexOf(0)
  const text = decode(zero < 0 ? raw : raw.subarray(0, zero))
  const plain = text.trim()
  if (plain === '') return null
  switch (type) {
    case 'N':
    case 'F': {
      // Stars are how a number that is not known, or that did not fit, is written.
      if (/^\*+$/.test(plain)) return null
      const number = Number(plain.replace(',', '.'))
      return Number.isFinite(number) ? number : { reason: `${shown(plain)} is not a number` }
    }
    case 'L':
      return /^[YyTt]$/.test(plain) ? true : /^[NnFf]$/.test(plain) ? false : null
    case 'D':
      if (/^0+$/.test(plain)) return null
      return /^\d{8}$/.test(plain)
        ? `${plain.slice(0, 4)}-${plain.slice(4, 6)}-${plain.slice(6)}`
        : { reason: `${shown(plain)} is not a day` }
    default:
      return text.replace(/\s+$/, '')
  }
}
