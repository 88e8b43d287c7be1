import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import { saveFile } from '../frame/saveFile.ts'
import { openFarm } from '../state/farm.ts'
import { layers } from '../state/shown.ts'
import { moves, shownLots } from '../state/stock.ts'
import { on } from '../state/where.ts'

/** The lots with their counts as on the day shown, as a table for a spreadsheet. */
export function saveLots(): void {
  const rows = shownLots.value.map(({ lot, counts, bedName }) => [
    lot.id,
    lot.kind,
    bedName,
    rowName(lot.row),
    lot.year,
    counts.raised,
    lot.grade,
    lot.price,
    counts.left,
    counts.reserved,
    counts.sold,
    counts.lifted,
    counts.lost,
    on.value,
    lot.price === null ? null : Number((lot.price * counts.left).toFixed(2)),
  ])
  const heads = [
    'id',
    'kind',
    'bed',
    'row',
    'year',
    'count',
    'grade',
    'price',
    'left',
    'reserved',
    'sold',
    'lifted',
    'lost',
  ]
  save('lots', spreadsheetCsv([...heads, 'on', 'worth left'], rows))
}

/** Every move, with its lot by name, as a table for a spreadsheet. */
export function saveMoves(): void {
  const lots = new Map(shownLots.value.map((one) => [one.lot.id, one]))
  const rows = moves.value.map(({ id, lot, on: day, move, count, to, due, note }) => {
    const of = lots.get(lot)
    return [id, lot, of?.lot.kind ?? null, of?.bedName ?? null, day, move, count, to, due, note]
  })
  save('moves', spreadsheetCsv(['id', 'lot', 'kind', 'bed', 'on', 'move', 'count', 'to', 'due', 'note'], rows))
}

/** A row's name or side; its id where that tells two of its bed apart only by it. */
function rowName(id: string | null): string | null {
  if (id === null) return null
  const all = layers.value?.rows.features ?? []
  const row = all.find(({ properties }) => properties.id === id)?.properties
  const name = row?.name ?? row?.side
  if (!row || !name) return id
  const alike = all.filter(
    ({ properties }) => properties.bed === row.bed && [properties.name, properties.side].includes(name),
  )
  return alike.length === 1 ? name : id
}

function save(what: string, csv: string): void {
  const farm = (openFarm.value?.farm.name ?? '').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'farm'
  // The mark tells spreadsheets that this is UTF-8.
  saveFile(`${farm}-${what}-${on.value}.csv`, new Blob([`\uFEFF${csv}`], { type: 'text/csv' }))
}
