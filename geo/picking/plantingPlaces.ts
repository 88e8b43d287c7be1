import type { Database } from '../store/database.ts'

/** Where a planting stood and when, by names that a notebook may have. */
export interface PlantingPlace {
  readonly id: string
  readonly crop: string
  readonly variety: string
  readonly bed: string
  readonly row: string | null
  readonly side: string | null
  readonly setOut: string
  readonly cleared: string | null
  readonly lengthM: number
}

/** Every planting of the farm with its bed, row, days and the length of its stretch, in the order they were made. */
export async function plantingPlaces(db: Database): Promise<PlantingPlace[]> {
  return db.rows<PlantingPlace>(
    `select p.id, v.crop, p.variety, b.id as bed, r.name as row, r.side, p.set_out as "setOut", p.cleared,
      st_length(s.plan) as "lengthM"
     from plantings p join stretches s on s.planting = p.id join varieties v on v.id = p.variety
     left join rows r on r.id = p.row join beds b on b.id = coalesce(r.bed, p.bed) order by p.ord`,
  )
}
