import type { Polygon } from 'geojson'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import { circleOverlap } from '../plane/circleOverlap.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { readRecords } from '../store/row.ts'
import { spreadOn } from './canopy.ts'
import type { Clearance } from './clearances.ts'
import { isJugloneSource } from './juglone.ts'

/** A bed is paired with a juglone source at most this far off, or within its reach. */
export const PAIRED_WITHIN_M = 30

/** Every bed standing on a day (or the one named) with each juglone source near it, by bed and then by distance. */
export async function clearance(db: Database, on: string, onlyBed: string | null = null): Promise<Clearance[]> {
  const trees = (await readRecords(db, treeKind)) as unknown as Tree[]
  const sources = trees.filter(
    (tree) => isJugloneSource(tree) && (tree.planted ?? on) <= on && (tree.removed === null || tree.removed > on),
  )
  const spreads = new Map(sources.map((tree) => [tree.id, spreadOn(tree, on)]))
  const asked = sources.map(({ id }) => ({ id, reach_m: spreads.get(id)!.reachM }))
  const pairs = await db.rows<Pair>(PAIRS, [JSON.stringify(asked), on, onlyBed])
  return pairs.map((pair) => {
    const { canopyM, reachM } = spreads.get(pair.tree)!
    const rings = pair.bed_plan ? ringsOf(pair.bed_plan) : []
    const beneath = (radiusM: number) =>
      rings.reduce(
        (sum, ring, i) => sum + (i === 0 ? 1 : -1) * circleOverlap(ring, [pair.east_m, pair.north_m], radiusM),
        0,
      )
    return {
      bed: pair.bed,
      tree: pair.tree,
      trunk_m: pair.trunk_m,
      canopy_m: pair.trunk_m - canopyM,
      under_canopy_m2: beneath(canopyM),
      within_reach_m2: beneath(reachM),
      sensitive: pair.sensitive,
    }
  })
}

interface Pair {
  bed: string
  tree: string
  trunk_m: number
  east_m: number
  north_m: number
  /** Only where the reach touches the bed. */
  bed_plan: string | null
  sensitive: string[]
}

const PAIRS = `with sources as (
    select t.id, t.plan, x.reach_m from jsonb_to_recordset($1::jsonb) as x(id text, reach_m double precision)
    join trees t on t.id = x.id
  ), near as (
    select b.id as bed, b.ord, b.plan as bed_plan, t.id as tree, t.plan as tree_plan, t.reach_m, st_distance(t.plan, b.plan) as trunk_m
    from sources t join beds b on st_dwithin(t.plan, b.plan, greatest(t.reach_m, ${PAIRED_WITHIN_M}))
    where standing(b.made, b.retired, $2::date) and ($3::text is null or b.id = $3)
  ), sensitive as (
    select n.bed, n.tree, array_agg(distinct s.crop order by s.crop) as crops
    from near n
    join stretches s on s.bed = n.bed and standing(s.set_out, s.cleared, $2::date)
    join crops c on c.id = s.crop and c.juglone = 'sensitive'
    where n.trunk_m < n.reach_m and st_dwithin(s.plan, n.tree_plan, n.reach_m)
    group by n.bed, n.tree
  )
  select n.bed, n.tree, n.trunk_m, st_x(n.tree_plan) as east_m, st_y(n.tree_plan) as north_m,
    case when n.trunk_m < n.reach_m then encode(st_asewkb(n.bed_plan), 'hex') end as bed_plan,
    coalesce(s.crops, '{}') as sensitive
  from near n left join sensitive s on s.bed = n.bed and s.tree = n.tree
  order by n.ord, n.trunk_m, n.tree`

function ringsOf(hex: string): Metres[][] {
  return (fromEwkb(hex) as Polygon).coordinates as unknown as Metres[][]
}
