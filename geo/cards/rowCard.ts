import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A row: its length and what stands in it. */
export async function rowCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const [row] = await db.rows<{ length_m: number; bed: string }>(
    'select st_length(r.plan) as length_m, b.name as bed from rows r join beds b on b.id = r.bed where r.id = $1',
    [record.id],
  )
  if (!row) throw new Error(`row ${record.id} is not there`)
  const stands = await db.rows<{
    crop: string
    variety: string
    from_m: number | null
    to_m: number | null
    from: string
    until: string | null
  }>(
    `select c.name as crop, v.name as variety, p.from_m, p.to_m, p.set_out as "from", p.cleared as until
     from plantings p join varieties v on v.id = p.variety join crops c on c.id = v.crop
     where p.row = $1 and p.set_out <= $2::date order by p.set_out desc, p.from_m limit 60`,
    [record.id, on],
  )
  return {
    title: String(record.name ?? record.side ?? 'Row'),
    subtitle: `in ${row.bed}`,
    lines: [{ label: 'length', value: row.length_m, unit: 'm', from: 'Length of the line in the farm’s plane.' }],
    tables: [
      {
        title: 'Plantings',
        columns: ['crop', 'variety', 'from m', 'to m', 'from', 'until'],
        rows: stands.map((s) => [s.crop, s.variety, s.from_m, s.to_m, s.from, s.until]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}
