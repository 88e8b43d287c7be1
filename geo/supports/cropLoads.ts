import type { Database } from '../store/database.ts'

/** What all cleared plantings of a variety that were picked gave on this farm; `counted` are those whose plants are known. */
export interface OwnYield {
  readonly crop: string
  readonly variety: string
  readonly kg: number
  readonly rowM: number
  readonly counted: { readonly kg: number; readonly plants: number }
}

/** What is known of yields: this farm's own, and what is usual of a crop (the high end of its range, kg/m² of ground). */
export interface KnownYields {
  readonly own: readonly OwnYield[]
  readonly usual: readonly { readonly crop: string; readonly kgPerM2: number }[]
}

/**
 * What is known of yields on a day. A planting counts once it is cleared: one that is still picked gives more than it
 * gave so far, and would tell too light a load. Picks told by bed or by place are of no planting and don't count.
 */
export async function knownYields(db: Database, on: string): Promise<KnownYields> {
  const own = await db.rows<Omit<OwnYield, 'counted'> & { counted_kg: number | null; plants: number | null }>(
    `with picked as (
       select planting, sum(kg) as kg from picks where planting is not null and kg is not null group by planting
     ), given as (
       select t.crop, t.variety, k.kg, st_length(t.plan) as row_m,
         coalesce(p.plants, st_length(t.plan) / p.spacing_m)::double precision as plants
       from picked k join stretches t on t.planting = k.planting join plantings p on p.id = k.planting
       where t.cleared <= $1::date and st_length(t.plan) > 0
     )
     select crop, variety, sum(kg) as kg, sum(row_m) as "rowM",
       sum(kg) filter (where plants > 0) as counted_kg, sum(plants) filter (where plants > 0) as plants
     from given group by crop, variety order by crop, variety`,
    [on],
  )
  const usual = await db.rows<KnownYields['usual'][number]>(
    `select id as crop, yield_high_kg_per_m2 as "kgPerM2" from crops where climbs and yield_high_kg_per_m2 > 0 order by ord`,
  )
  return {
    own: own.map(({ counted_kg, plants, ...one }) => ({
      ...one,
      counted: { kg: counted_kg ?? 0, plants: plants ?? 0 },
    })),
    usual,
  }
}
