import type { MultiPolygon, Polygon } from 'geojson'
import type { Database } from '../store/database.ts'
import { type Ring, ringAreaM2 } from './ring.ts'
import type { SeasonSpan } from './season.ts'
import type { YieldReport } from './yieldReport.ts'
import { bridgesOf } from './zoneBridges.ts'

/** A low-yield zone on the ground, and what lies near it. Nearness is not cause. */
export type ZoneSurroundings = {
  /** Its outline in lon/lat, paths between its beds taken in. */
  readonly outline: Polygon | MultiPolygon
  /** The tree whose canopy, as last measured, is nearest; `canopyM` is negative beneath it. */
  readonly tree: {
    readonly id: string
    readonly species: string
    readonly name: string | null
    readonly trunkM: number
    readonly canopyM: number
  } | null
  readonly fieldEdgeM: number
  /** Support systems that stood along it in the season, and for how many metres. */
  readonly supports: readonly { readonly system: string; readonly name: string; readonly lengthM: number }[]
  /** What its beds were dressed with in the season. */
  readonly dressings: readonly {
    readonly bed: string
    readonly on: string
    readonly material: string
    readonly kgPerM2: number | null
  }[]
}

/** Outlines and surroundings of a report's zones, in their order. */
export async function zoneSurroundings(
  db: Database,
  report: YieldReport,
  { from, to }: SeasonSpan,
): Promise<ZoneSurroundings[]> {
  if (report.zones.length === 0) return []
  const zones = report.zones.map((zone, n) => ({
    n,
    beds: zone.beds.map((b) => report.beds[b]!.id),
    stretches: collectionText(zone.stretches.flatMap((s) => report.stretches[s]!.rings)),
    bridges: collectionText(bridgesOf(zone, report)),
  }))
  return db.rows<ZoneSurroundings>(SURROUNDINGS, [JSON.stringify(zones), from, to])
}

/** Outer rings as a collection of polygons; an outline takes holes in. */
function collectionText(rings: readonly Ring[]): string {
  const outers = rings.filter((ring) => ringAreaM2(ring) > 0)
  const polygons = outers.map((ring) => {
    const positions: string[] = []
    for (let k = 0; k < ring.length; k += 2) positions.push(`${ring[k]} ${ring[k + 1]}`)
    return `POLYGON((${[...positions, positions[0]].join(',')}))`
  })
  return polygons.length === 0 ? 'GEOMETRYCOLLECTION EMPTY' : `GEOMETRYCOLLECTION(${polygons.join(',')})`
}

/** How far from a support a row may run and still be along it. */
const ALONG_M = 0.6

/**
 * Overlays are made on a grid of 1 cm, which GEOS does by snap rounding: that never throws, where its overlays in full
 * precision throw inside and try again, which the embedded engine can't.
 */
const GRID_M = 0.01

const SURROUNDINGS = `with asked as (
    select n, beds, st_geomfromtext(stretches, 990001) as stretches, st_geomfromtext(bridges, 990001) as bridges
    from jsonb_to_recordset($1::jsonb) as z(n integer, beds text[], stretches text, bridges text)
  ), zones as materialized (
    select n, beds, stretches,
      (select st_union(d.geom, ${GRID_M}) from st_dump(st_collect(stretches, bridges)) d) as plan,
      (select st_union(st_buffer(d.geom, ${ALONG_M}), ${GRID_M}) from st_dump(stretches) d) as near
    from asked
  )
  select st_asgeojson(lon_lat(z.plan), 9)::jsonb as outline,
    (select jsonb_build_object('id', t.id, 'species', t.species, 'name', t.name, 'trunkM', t.trunk_m, 'canopyM', t.canopy_m)
     from (select id, species, name, st_distance(plan, z.stretches) as trunk_m,
         st_distance(plan, z.stretches) - coalesce(canopy_radius_m, 0) as canopy_m
       from trees where coalesce(planted <= $3::date, true) and coalesce(removed > $2::date, true)
       order by canopy_m, id limit 1) t) as tree,
    (select min(st_distance(st_boundary(f.plan), z.stretches)) from fields f
     where f.id in (select field from beds where id = any(z.beds))) as "fieldEdgeM",
    (select coalesce(jsonb_agg(jsonb_build_object('system', s.system, 'name', s.name, 'lengthM', s.length_m) order by s.length_m desc), '[]')
     from (select s.system, y.name, sum(st_length(st_intersection(s.plan, z.near, ${GRID_M}))) as length_m
       from supports s join systems y on y.id = s.system
       where st_intersects(s.plan, z.near)
         and coalesce(s.put_up <= $3::date, true) and coalesce(s.taken_down > $2::date, true)
       group by s.system, y.name) s) as supports,
    (select coalesce(jsonb_agg(jsonb_build_object('bed', bed, 'on', "on", 'material', material, 'kgPerM2', kg_per_m2) order by "on", ord), '[]')
     from dressings where bed = any(z.beds) and "on" between $2::date and $3::date) as dressings
  from zones z order by z.n`
