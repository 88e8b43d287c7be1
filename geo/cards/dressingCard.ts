import { measureBeds } from '../measure/measure.ts'
import type { Dressing } from '../model/dressings.ts'
import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** What was put on a bed: how much of it, over the square metre and in all. */
export async function dressingCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const dressing = record as unknown as Dressing
  const [bed] = await measureBeds(db, on, [dressing.bed])
  const kg = dressing.kg_per_m2 === null || !bed ? null : dressing.kg_per_m2 * bed.area_m2
  return {
    title: dressing.material,
    subtitle: bed?.name ?? dressing.bed,
    lines: [
      { label: 'day', value: dressing.on, unit: 'day' },
      { label: 'amount', value: dressing.kg_per_m2, unit: 'kg/m2' },
      { label: 'in all', value: kg, unit: 'kg', from: 'Over the whole area of the bed.' },
      ...(dressing.raw_manure === null
        ? []
        : [{ label: 'raw manure', value: dressing.raw_manure ? 'yes: mind the interval to harvest' : 'no' }]),
      ...(dressing.note === null ? [] : [{ label: 'note', value: dressing.note }]),
    ],
    tables: [],
  }
}
