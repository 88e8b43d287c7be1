import { supportRuns } from '../measure/supportRuns.ts'
import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A support run: its system, length and age, and what the system is made of. */
export async function supportCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const [run] = await db.rows<{ system_name: string; length_m: number; bed: string | null; field: string | null }>(
    `select y.name as system_name, st_length(s.plan) as length_m, b.name as bed, f.name as field
     from supports s join systems y on y.id = s.system join support_places p on p.support = s.id
     left join beds b on b.id = p.bed left join fields f on f.id = p.field where s.id = $1`,
    [record.id],
  )
  if (!run) throw new Error(`support ${record.id} is not there`)
  const standing = (await supportRuns(db, on)).find((one) => one.id === record.id)
  const parts = await db.rows<{ part: string; rule: string; unit_cost: number | null; lasts_seasons: number | null }>(
    'select part, rule, unit_cost, lasts_seasons from system_parts where system = $1 order by ord',
    [record.system],
  )
  return {
    title: run.system_name,
    subtitle: [run.bed, run.field].filter(Boolean).join(', '),
    lines: [
      { label: 'length', value: run.length_m, unit: 'm', from: 'Length of the line in the farm’s plane.' },
      { label: 'height', value: (record.height_m as number | null) ?? null, unit: 'm' },
      { label: 'put up', value: (record.put_up as string | null) ?? null, unit: 'day' },
      { label: 'taken down', value: (record.taken_down as string | null) ?? null, unit: 'day' },
      {
        label: 'season it stands in',
        value: standing?.age_seasons ?? null,
        unit: 'count',
        from: 'Years since it was put up, the first counted as 1.',
      },
      { label: 'permanent', value: record.permanent ? 'yes' : 'no' },
    ],
    tables: [
      {
        title: 'What the system is made of',
        columns: ['part', 'how many', 'cost each', 'lasts seasons'],
        rows: parts.map((p) => [p.part, p.rule, p.unit_cost, p.lasts_seasons]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}
