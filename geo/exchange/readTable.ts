import type { Kind } from '../model/kind.ts'
import { blankDraft, type Draft } from './archive.ts'
import { decodeText } from './decodeText.ts'
import type { Faults } from './faults.ts'
import { type CsvLine, flawLines, parseCsv } from './parseCsv.ts'
import { readCell, whyNotKept } from './readValue.ts'

/** Drafts of a CSV file, or null where the file as a whole can't be read (its faults say why). */
export function readTable(kind: Kind, bytes: Uint8Array, faults: Faults): Draft[] | null {
  const decoded = decodeText(bytes)
  if (!('text' in decoded)) {
    faults.ofFile(kind.file, decoded.reason, decoded.line === null ? '' : `line ${decoded.line}`)
    return null
  }
  const { lines, flaws } = parseCsv(decoded.text)
  const [head, ...body] = lines
  if (!head) {
    if (flaws.length === 0) faults.ofFile(kind.file, 'has no header line')
    for (const flaw of flaws) faults.ofFile(kind.file, flaw.reason, flawLines(flaw))
    return null
  }
  const columns = readHeader(kind, head, flaws[0]?.line, body, faults)
  for (const flaw of flaws) faults.ofFile(kind.file, flaw.reason, flawLines(flaw))
  if (!columns) return null
  return body.map((line, i) => readLine(kind, columns, line, i + 1, faults))
}

/** The columns' names; null where a required one is missing or one comes twice. */
function readHeader(
  kind: Kind,
  head: CsvLine,
  firstFlaw: number | undefined,
  body: readonly CsvLine[],
  faults: Faults,
): readonly string[] | null {
  const where = `line ${head.line}`
  if (firstFlaw !== undefined && firstFlaw < head.line) return null
  let sound = true
  const wrong = (field: string, reason: string) => {
    sound = false
    faults.ofFile(kind.file, reason, where, field)
  }
  const seen = new Set<string>()
  head.cells.forEach((name, i) => {
    if (name === '') {
      if (body.some((line) => (line.cells[i] ?? '') !== '')) wrong('', `column ${i + 1} has no name in the header line`)
      return
    }
    if (seen.has(name)) wrong(name, 'stands twice in the header line')
    seen.add(name)
    const unkept = whyNotKept(name)
    if (unkept) wrong(name, unkept)
  })
  for (const [name, field] of Object.entries(kind.fields)) {
    if (!field.required || seen.has(name)) continue
    wrong(name, `is not in the header line${hintFor(name, head.cells)}`)
  }
  return sound ? head.cells : null
}

function hintFor(name: string, cells: readonly string[]): string {
  const alike = cells.find((cell) => cell.trim().toLowerCase() === name)
  if (alike !== undefined) return ` (there is ${JSON.stringify(alike)})`
  const [only] = cells
  if (cells.length !== 1 || only === undefined) return ''
  if (only.includes(';')) return ' (its cells seem to be parted by semicolons, not commas)'
  return only.includes('\t') ? ' (its cells seem to be parted by tabs, not commas)' : ''
}

function readLine(kind: Kind, columns: readonly string[], line: CsvLine, ordinal: number, faults: Faults): Draft {
  const idAt = columns.indexOf('id')
  const id = kind.hasId ? (line.cells[idAt] ?? '') : `${kind.name}:${ordinal}`
  const where = kind.hasId && id !== '' ? `line ${line.line} (${id})` : `line ${line.line}`
  const draft = blankDraft(kind, where, id)
  const { record } = draft
  if (line.cells.length !== columns.length) {
    const many = `has ${line.cells.length} ${line.cells.length === 1 ? 'cell' : 'cells'}`
    faults.of(draft, '', `${many}, the header line ${columns.length}`)
    draft.unread = new Set(Object.keys(kind.fields))
    return draft
  }
  const extra: [string, string][] = []
  columns.forEach((name, i) => {
    const cell = line.cells[i]!
    const field = Object.hasOwn(kind.fields, name) ? kind.fields[name] : undefined
    if (!field) {
      if (cell === '') return
      const unkept = whyNotKept(cell)
      if (unkept) faults.of(draft, name, unkept)
      else extra.push([name, cell])
      return
    }
    const read = readCell(field, cell)
    if ('reason' in read) faults.of(draft, name, read.reason)
    else record[name] = read.value
  })
  if (extra.length > 0) record.extra = Object.fromEntries(extra)
  return draft
}
