import { measure } from '../measure/measure.ts'
import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A field: its ground, beds, rows and supports on the day. */
export async function fieldCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const {
    fields: [field],
  } = await measure(db, on, [record.id])
  if (!field) throw new Error(`field ${record.id} was not measured`)
  const beds = await db.rows<{ name: string; area_m2: number }>(
    `select name, st_area(plan) as area_m2 from beds where field = $1 and standing(made, retired, $2::date) order by ord`,
    [record.id, on],
  )
  const share = field.area_m2 > 0 ? Math.round((1000 * field.bed_area_m2) / field.area_m2) / 10 : 0
  return {
    title: field.name,
    subtitle: `${field.bed_count} ${field.bed_count === 1 ? 'bed' : 'beds'}, ${share} % of the field`,
    lines: [
      { label: 'area', value: field.area_m2, unit: 'm2', from: 'Area of the outline in the farm’s plane.' },
      {
        label: 'growing ground',
        value: field.bed_area_m2,
        unit: 'm2',
        from: 'Sum of the areas of the beds there on the day.',
      },
      { label: 'row metres', value: field.row_m, unit: 'm', from: 'Sum of the lengths of the rows in those beds.' },
      ...Object.entries(field.support_m)
        .filter(([, lengthM]) => lengthM > 0)
        .map(([name, lengthM]) => ({
          label: name,
          value: lengthM,
          unit: 'm' as const,
          from: 'Supports of this system standing on the day; each counts to the field that holds most of it.',
        })),
      {
        label: 'climbing',
        value: field.climbing_m,
        unit: 'm',
        from: 'Metres of climbing plantings standing on the day.',
      },
      { label: 'unheld', value: field.unheld_m, unit: 'm', from: 'Climbing metres with no support within 0.6 m.' },
    ],
    tables: [{ title: 'Beds', columns: ['bed', 'm²'], rows: beds.map((bed) => [bed.name, bed.area_m2]) }],
  }
}
