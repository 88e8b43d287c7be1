import type { Database } from '../store/database.ts'
import { climbingStretches } from './held.ts'
import type { MeasuredField } from './measured.ts'
import { supportRuns } from './supportRuns.ts'

type Ground = Pick<MeasuredField, 'id' | 'name' | 'area_m2' | 'bed_count' | 'bed_area_m2' | 'row_m'>

/** Measures the fields named, as on a day, as `measure` does, without the shapes of their beds: for one edit among many beds. */
export async function measureFields(db: Database, on: string, fields: readonly string[]): Promise<MeasuredField[]> {
  const ground = await db.rows<Ground>(GROUND, [on, fields])
  const systems = await db.rows<{ name: string }>('select distinct name from systems order by name')
  const beds = await db.rows<{ id: string; field: string }>('select id, field from beds where field = any($1)', [
    fields,
  ])
  const fieldOf = new Map(beds.map((bed) => [bed.id, bed.field]))
  const climbing = new Map<string, { climbing_m: number; unheld_m: number }>()
  for (const { bed, lengthM, heldM } of await climbingStretches(db, on, { beds: beds.map((bed) => bed.id) })) {
    const field = fieldOf.get(bed)!
    const sum = climbing.get(field) ?? { climbing_m: 0, unheld_m: 0 }
    climbing.set(field, { climbing_m: sum.climbing_m + lengthM, unheld_m: sum.unheld_m + lengthM - heldM })
  }
  const runs = await supportRuns(db, on, { fields })
  return ground.map((field) => {
    const { climbing_m, unheld_m } = climbing.get(field.id) ?? { climbing_m: 0, unheld_m: 0 }
    const support_m: Record<string, number> = Object.fromEntries(systems.map((system) => [system.name, 0]))
    for (const run of runs) if (run.field === field.id) support_m[run.system_name]! += run.length_m
    return { ...field, support_m, climbing_m, held_m: climbing_m - unheld_m, unheld_m }
  })
}

const GROUND = `select f.id, f.name, st_area(f.plan) as area_m2, coalesce(b.bed_count, 0) as bed_count,
    coalesce(b.bed_area_m2, 0) as bed_area_m2, coalesce(r.row_m, 0) as row_m
  from fields f
  left join (
    select field, count(*) as bed_count, sum(st_area(plan)) as bed_area_m2 from beds
    where field = any($2) and standing(made, retired, $1::date) group by field
  ) b on b.field = f.id
  left join (
    select b.field, sum(st_length(r.plan)) as row_m from beds b join rows r on r.bed = b.id
    where b.field = any($2) and standing(b.made, b.retired, $1::date) group by b.field
  ) r on r.field = f.id
  where f.id = any($2)
  order by f.ord`
