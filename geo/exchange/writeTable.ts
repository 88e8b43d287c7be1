import type { AnyRecord, Kind } from '../model/kind.ts'

/** Columns of our own, of any kind or of one kind, that are written only where some record has a value in them. */
export const OPTIONAL_FIELDS: ReadonlySet<string> = new Set([
  'outside_accepted',
  'kg_per_unit',
  'climbs_source',
  'juglone_sure',
  'return_source',
  'usual_spacing_m',
  'spacing_source',
  'yield_low_kg_per_m2',
  'yield_high_kg_per_m2',
  'yield_source',
  'touches_soil',
  'touches_soil_source',
  'first_pick_days',
  'first_pick_source',
  'stands_years',
  'stands_source',
  'support_after_days',
  'kind',
  'roll_m',
  'diameter_mm',
  'strength_mpa',
  'modulus_gpa',
  'photo',
  'stock_moves.to',
  'stock_moves.due',
  'stock_moves.note',
])

/**
 * Records as CSV (RFC 4180, CRLF): the format's columns in their order, then those it does not know by name. Numbers are
 * the shortest text that reads back as the same double; null is an empty cell.
 */
export function writeTable(kind: Kind, records: readonly AnyRecord[]): string {
  const fields = Object.keys(kind.fields).filter(
    (name) =>
      !(OPTIONAL_FIELDS.has(name) || OPTIONAL_FIELDS.has(`${kind.name}.${name}`)) ||
      records.some((record) => record[name] !== null && record[name] !== undefined),
  )
  const extras = [...new Set(records.flatMap((record) => Object.keys(record.extra)))].sort()
  const lines = [[...fields, ...extras].map(quotedCell).join(',')]
  for (const record of records) {
    const cells = fields.map((name) => quotedCell(cellText(record[name], kind.fields[name]!.spelling)))
    for (const name of extras) cells.push(quotedCell(cellText(ownValue(record.extra, name))))
    lines.push(cells.join(','))
  }
  return `${lines.join('\r\n')}\r\n`
}

function ownValue(extra: Readonly<Record<string, unknown>>, name: string): unknown {
  return Object.hasOwn(extra, name) ? extra[name] : null
}

function cellText(value: unknown, spelling: 'yes/no' | 'true/false' = 'true/false'): string {
  if (value === null || value === undefined) return ''
  if (typeof value === 'boolean') return spelling === 'yes/no' ? (value ? 'yes' : 'no') : String(value)
  return typeof value === 'string' ? value : typeof value === 'number' ? String(value) : JSON.stringify(value)
}

function quotedCell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
