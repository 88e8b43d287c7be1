import type { AnyRecord } from '../model/kind.ts'
import type { Pick } from '../model/picks.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A pick: what was told, the mass reckoned from it, who had it, and why it was put right. */
export async function pickCard(db: Database, record: AnyRecord): Promise<CardBody> {
  const pick = record as unknown as Pick
  const [place] = await db.rows<{
    crop: string | null
    variety: string | null
    bed: string | null
    side: string | null
  }>(
    `select c.name as crop, v.name as variety, b.name as bed, coalesce(r.side, r.name) as side
     from picks k left join plantings p on p.id = k.planting left join varieties v on v.id = p.variety
     left join crops c on c.id = v.crop left join rows r on r.id = p.row
     left join beds b on b.id = coalesce(r.bed, p.bed, k.bed) where k.id = $1`,
    [pick.id],
  )
  const shares = await db.rows<{ to: string; part: number; use: string | null }>(
    'select "to", part, use from shares where pick = $1 order by ord',
    [pick.id],
  )
  const margin = await db.rows<{ on: string; reason: string; was: string | null }>(
    `select "on", reason, was from corrections where kind = 'picks' and record = $1 order by ord desc`,
    [pick.id],
  )
  const kg = pick.kg_per_unit === null ? null : pick.quantity * pick.kg_per_unit
  const parts = shares.reduce((sum, { part }) => sum + part, 0)
  return {
    title: `${pick.quantity} ${pick.unit}${place?.crop ? ` of ${place.crop}` : ''}`,
    subtitle: [place?.variety, place?.bed, place?.side].filter(Boolean).join(', '),
    lines: [
      { label: 'day', value: pick.on, unit: 'day' },
      {
        label: 'mass',
        value: kg,
        unit: 'kg',
        from:
          pick.kg_per_unit === null
            ? 'No weight is known of this container.'
            : `${pick.quantity} times ${pick.kg_per_unit} kg, the container’s weight when it was entered.`,
      },
      ...(['picker', 'grade', 'note'] as const).flatMap((label) => {
        const value = pick[label]
        return value === null ? [] : [{ label, value }]
      }),
    ],
    tables: [
      {
        title: 'Who had it',
        columns: ['to', 'for', 'part', 'kg'],
        rows: [
          ...shares.map(({ to, part, use }) => [to, use, part, kg === null ? null : kg * part]),
          ...(shares.length > 0 && parts < 1 - 1e-9
            ? [['not shared out', null, 1 - parts, kg === null ? null : kg * (1 - parts)]]
            : []),
        ],
      },
      {
        title: 'Put right',
        columns: ['day', 'why', 'was'],
        rows: margin.map(({ on, reason, was }) => [on, reason, was]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}
