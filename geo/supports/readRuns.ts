import type { LineString } from 'geojson'
import { HELD_WITHIN_M } from '../measure/held.ts'
import type { Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import type { HeldPlanting, Run } from './run.ts'

/**
 * Supports standing on a day, with the climbing plantings whose rows run within 0.6 m of them and stood while they did
 * in the season from one day to another.
 */
export async function readRuns(db: Database, on: string, season: { from: string; to: string }): Promise<Run[]> {
  const runs = await db.rows<Omit<Run, 'line' | 'held'> & { shape: string }>(
    `select s.id, s.system, p.field, p.bed, st_length(s.plan) as "lengthM", s.height_m as "heightM",
      coalesce(s.permanent, false) as permanent, s.put_up as "putUp", s.reuse_posts as "reusePosts", encode(st_asewkb(s.plan), 'hex') as shape
     from supports s join support_places p on p.support = s.id
     where standing(s.put_up, s.taken_down, $1::date) order by s.ord`,
    [on],
  )
  const near = await db.rows<{
    support: string
    planting: string
    crop: string
    family: string
    variety: string
    picked_kg: number
    ground_width: number | null
    length_m: number
    plants: number | null
    setOut: string
    cleared: string | null
    shape: string
  }>(
    `with climbing as materialized (
       select t.planting, t.crop, t.variety, t.bed, t.plan, t.set_out, t.cleared from stretches t
       where t.climbs and t.set_out <= $3::date and (t.cleared is null or t.cleared > $2::date)
     )
     select s.id as support, t.planting, t.crop, c.family, t.variety,
       coalesce((select sum(k.kg) from picks k where k.planting = t.planting), 0) as picked_kg, st_length(t.plan) as length_m,
       coalesce(p.plants, st_length(t.plan) / p.spacing_m) as plants, t.set_out as "setOut", t.cleared, encode(st_asewkb(t.plan), 'hex') as shape,
       st_area(b.plan) / coalesce((select nullif(sum(st_length(r.plan)), 0) from rows r where r.bed = b.id),
         st_length(long_middle(b.plan))) as ground_width
     from climbing t join supports s on st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M})
     join plantings p on p.id = t.planting join crops c on c.id = t.crop join beds b on b.id = t.bed
     where standing(s.put_up, s.taken_down, $1::date)
       and (s.put_up is null or t.cleared is null or t.cleared > s.put_up)
       and (s.taken_down is null or t.set_out < s.taken_down)
     order by t.set_out, t.planting`,
    [on, season.from, season.to],
  )
  return runs.map(({ shape, ...run }) => {
    const line = lineOf(shape)
    const held = near.flatMap((one): HeldPlanting[] => {
      if (one.support !== run.id) return []
      const heldM = spansLength(spansWithin(lineOf(one.shape), [line], HELD_WITHIN_M))
      if (!(heldM > 0)) return []
      const plants = one.plants === null ? null : Math.round((one.plants * heldM) / one.length_m)
      const { planting, crop, family, variety, ground_width: groundWidthM, setOut, cleared } = one
      const pickedKg = one.picked_kg * Math.min(1, heldM / one.length_m)
      return [{ planting, crop, family, variety, heldM, plants, groundWidthM, pickedKg, setOut, cleared }]
    })
    return { ...run, line, held }
  })
}

function lineOf(hex: string): readonly Metres[] {
  const shape = fromEwkb(hex)
  return shape.type === 'LineString' ? ((shape as LineString).coordinates as unknown as Metres[]) : []
}
