import type { LonLat } from '../plane/lonLat.ts'
import { PLANE_SRID } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'

/** A planting by the names that a person knows it by; the side is the row's, or its name. */
export interface PlantingNamed {
  readonly planting: string
  readonly crop: string
  readonly cropName: string
  readonly variety: string
  readonly bed: string
  readonly bedName: string
  readonly side: string | null
}

/** A planting that stands near a place, and how far its stretch is from there. */
export interface NearPlanting extends PlantingNamed {
  readonly distanceM: number
}

/** How far from a place beds are looked at, in metres: farther than any position that a device calls known. */
const REACH_M = 60

/**
 * Plantings standing on a day, the nearest to a place first: by the distance in the farm's plane from the place to the
 * planting's stretch. Beds within 60 m are found by their index; where there is none, the nearest few beds are looked at.
 */
export async function nearPlantings(db: Database, at: LonLat, on: string, most: number): Promise<NearPlanting[]> {
  return db.rows<NearPlanting>(
    `with here as materialized (
       select st_transform(st_setsrid(st_makepoint($1, $2), 4326), ${PLANE_SRID}) as plan
     ), near_beds as materialized (
       select b.id from here h join beds b on st_dwithin(b.plan, h.plan, ${REACH_M})
       union
       select id from (select b.id from here h, beds b order by b.plan <-> h.plan limit 12) few
     ), standing_near as materialized (
       select s.* from stretches s
       where s.planting = any(array(select plantings_in(array(select id from near_beds))))
         and standing(s.set_out, s.cleared, $3::date)
     )
     select s.planting, s.crop, c.name as "cropName", v.name as variety, s.bed, b.name as "bedName",
       coalesce(r.side, r.name) as side, st_distance(s.plan, h.plan) as "distanceM"
     from here h, standing_near s
     join crops c on c.id = s.crop join varieties v on v.id = s.variety join beds b on b.id = s.bed
     left join rows r on r.id = s.row
     order by st_distance(s.plan, h.plan), b.ord, s.planting limit $4`,
    [at[0], at[1], on, most],
  )
}

/** The bed, standing on the day, that holds a place; of two the first made. */
export async function bedAt(
  db: Database,
  at: LonLat,
  on: string,
): Promise<{ readonly id: string; readonly name: string } | null> {
  const [bed] = await db.rows<{ id: string; name: string }>(
    `select b.id, b.name from beds b
     where st_covers(b.plan, st_transform(st_setsrid(st_makepoint($1, $2), 4326), ${PLANE_SRID}))
       and standing(b.made, b.retired, $3::date) order by b.ord limit 1`,
    [at[0], at[1], on],
  )
  return bed ?? null
}
