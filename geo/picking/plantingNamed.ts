import type { Database } from '../store/database.ts'
import type { PlantingNamed } from './nearPlantings.ts'

/** A planting by the names that a person knows it by; null where there is none of that id. */
export async function plantingNamed(db: Database, id: string): Promise<PlantingNamed | null> {
  const [named] = await db.rows<PlantingNamed>(
    `select p.id as planting, c.id as crop, c.name as "cropName", v.name as variety, b.id as bed, b.name as "bedName",
       coalesce(r.side, r.name) as side
     from plantings p join varieties v on v.id = p.variety join crops c on c.id = v.crop
     left join rows r on r.id = p.row join beds b on b.id = coalesce(r.bed, p.bed) where p.id = $1`,
    [id],
  )
  return named ?? null
}
