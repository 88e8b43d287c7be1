import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A planting: its stretch, and its picks up to the day. */
export async function plantingCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const [planting] = await db.rows<{ crop: string; variety: string; family: string; bed: string; length_m: number }>(
    `select c.name as crop, v.name as variety, c.family, b.name as bed, st_length(s.plan) as length_m
     from stretches s join varieties v on v.id = s.variety join crops c on c.id = s.crop join beds b on b.id = s.bed
     where s.planting = $1`,
    [record.id],
  )
  if (!planting) throw new Error(`planting ${record.id} stands nowhere`)
  const picks = await db.rows<{ on: string; quantity: number; unit: string; kg: number | null; picker: string | null }>(
    `select "on", quantity, unit, kg, picker from picks where planting = $1 and "on" <= $2::date order by "on" desc, ord`,
    [record.id, on],
  )
  const kg = picks.reduce((sum, pick) => sum + (pick.kg ?? 0), 0)
  return {
    title: `${planting.crop}, ${planting.variety}`,
    subtitle: `${planting.bed}, ${planting.family}`,
    lines: [
      {
        label: 'stretch',
        value: planting.length_m,
        unit: 'm',
        from: 'From–to metres along its row, or the bed’s long middle.',
      },
      { label: 'plants', value: (record.plants as number | null) ?? null, unit: 'count' },
      { label: 'set out', value: record.set_out as string, unit: 'day' },
      { label: 'cleared', value: (record.cleared as string | null) ?? null, unit: 'day' },
      {
        label: 'picked',
        value: kg,
        unit: 'kg',
        from: `Sum of ${picks.length} picks: quantity × weight per container.`,
      },
      ...(planting.length_m > 0
        ? [
            {
              label: 'picked a metre',
              value: kg / planting.length_m,
              unit: 'kg/m' as const,
              from: 'Picked mass over the stretch.',
            },
          ]
        : []),
    ],
    tables: [
      {
        title: 'Picks',
        columns: ['day', 'quantity', 'unit', 'kg', 'picker'],
        rows: picks.map((p) => [p.on, p.quantity, p.unit, p.kg, p.picker]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}
