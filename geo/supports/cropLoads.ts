import type { Database } from '../store/database.ts'

/** kg that a metre of each crop's row gave in a season, over all its plantings that were picked, on this farm. */
export async function kgPerRowM(db: Database): Promise<Map<string, number>> {
  const rows = await db.rows<{ crop: string; kg_per_m: number }>(
    `with picked as (
       select planting, sum(kg) as kg from picks where planting is not null and kg is not null group by planting
     )
     select t.crop, sum(k.kg) / sum(st_length(t.plan)) as kg_per_m
     from picked k join stretches t on t.planting = k.planting
     where st_length(t.plan) > 0 group by t.crop`,
  )
  return new Map(rows.map(({ crop, kg_per_m }) => [crop, kg_per_m]))
}
