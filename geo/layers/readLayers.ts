import type { Polygon } from 'geojson'
import { spreadOn } from '../measure/canopy.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import { HELD_WITHIN_M } from '../measure/measure.ts'
import type { Tree } from '../model/trees.ts'
import { trees as treeKind } from '../model/trees.ts'
import { planeAbout } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { fromStored, readStored } from '../store/row.ts'
import { LAYERS, type Layer, type LayerName } from './layer.ts'

export type Layers = { readonly [L in LayerName]: Layer<L> }

/** Which records to read, by kind; a kind left out gives none of its features. Plantings give stretches, trees give canopies too. */
export type Scope = Readonly<Record<string, readonly string[]>>

/** The farm's things as features in lon/lat, as on a day; all of them, or those in scope. */
export async function readLayers(db: Database, on: string, scope: Scope | null = null): Promise<Layers> {
  const layers: Record<string, Layer> = {}
  for (const name of LAYERS) layers[name] = { type: 'FeatureCollection', features: [] }
  for (const [name, { kind, sql }] of Object.entries(QUERIES)) {
    const ids = scope ? (scope[kind] ?? []) : null
    if (ids?.length === 0) continue
    const [row] = await db.rows<{ features: string | null }>(
      `select '[' || string_agg(json_build_object('type', 'Feature', 'geometry', st_asgeojson(q.geom, 9)::json,
        'properties', to_jsonb(q) - 'geom' - 'ord')::text, ',' order by q.ord) || ']' as features from (${sql}) q`,
      sql.includes('$2') ? [ids, on] : [ids],
    )
    layers[name] = { type: 'FeatureCollection', features: JSON.parse(row?.features ?? '[]') }
  }
  Object.assign(layers, await treeLayers(db, on, scope ? (scope.trees ?? []) : null))
  return layers as unknown as Layers
}

const QUERIES: Partial<Record<LayerName, { kind: string; sql: string }>> = {
  fields: {
    kind: 'fields',
    sql: `select id, name, st_area(plan) as area_m2, geom, ord from fields where $1::text[] is null or id = any($1)`,
  },
  beds: {
    kind: 'beds',
    sql: `select id, name, field, st_area(plan) as area_m2, standing(made, retired, $2::date) as standing, geom, ord
      from beds where $1::text[] is null or id = any($1)`,
  },
  rows: {
    kind: 'rows',
    sql: `select id, bed, name, side, st_length(plan) as length_m, geom, ord from rows where $1::text[] is null or id = any($1)`,
  },
  supports: {
    kind: 'supports',
    sql: `select s.id, s.system, y.name as system_name, coalesce(s.permanent, false) as permanent, s.put_up,
        st_length(s.plan) as length_m, s.geom, s.ord
      from supports s join systems y on y.id = s.system
      where standing(s.put_up, s.taken_down, $2::date) and ($1::text[] is null or s.id = any($1))`,
  },
  structures: {
    kind: 'structures',
    sql: `select id, kind, name, geom, ord from structures where $1::text[] is null or id = any($1)`,
  },
  observations: {
    kind: 'observations',
    sql: `select id, "on", kind, severity, geom, ord from observations
      where "on" between $2::date - 365 and $2::date and ($1::text[] is null or id = any($1))`,
  },
  stretches: {
    kind: 'plantings',
    sql: `with there as (
        select s.*, near.around from stretches s
        left join lateral (
          select st_union(st_buffer(p.plan, ${HELD_WITHIN_M}, 16)) as around from supports p
          where s.climbs and st_dwithin(p.plan, s.plan, ${HELD_WITHIN_M}) and standing(p.put_up, p.taken_down, $2::date)
        ) near on true
        where standing(s.set_out, s.cleared, $2::date) and ($1::text[] is null or s.planting = any($1))
      ), pieces as (
        select planting, crop, variety, climbs, around is not null as held,
          case when around is null then plan else st_intersection(plan, around) end as plan from there
        union all
        select planting, crop, variety, climbs, false, st_difference(plan, around) from there where around is not null
      )
      select p.planting as id, (row_number() over (partition by p.planting order by p.held))::integer as n, p.crop,
        c.name as crop_name, v.name as variety_name, c.family, p.climbs, p.held, st_length(p.plan) as length_m,
        lon_lat(p.plan) as geom, pl.ord
      from pieces p join crops c on c.id = p.crop join varieties v on v.id = p.variety join plantings pl on pl.id = p.planting
      where st_length(p.plan) > 0.001`,
  },
}

const CIRCLE_CORNERS = 48

async function treeLayers(
  db: Database,
  on: string,
  ids: readonly string[] | null,
): Promise<Pick<Layers, 'trees' | 'canopies'>> {
  const trees: Layer<'trees'> = { type: 'FeatureCollection', features: [] }
  const canopies: Layer<'canopies'> = { type: 'FeatureCollection', features: [] }
  const stored = await readStored(db, treeKind, ids ? { by: 'id', values: ids } : undefined)
  const origin = await readOrigin(db)
  if (stored.length === 0 || !origin) return { trees, canopies }
  const plane = planeAbout(origin)
  for (const row of stored) {
    const tree = fromStored(row) as unknown as Tree
    if ((tree.planted ?? on) > on || (tree.removed !== null && tree.removed <= on)) continue
    const at = (tree.geom as { coordinates: [number, number] }).coordinates
    const centre = plane.toMetres(at)
    const spread = spreadOn(tree, on)
    const source = isJugloneSource(tree)
    const { id, species, name, height_m } = tree
    trees.features.push({
      type: 'Feature',
      geometry: tree.geom,
      properties: { id, species, name, height_m, canopy_radius_m: spread.canopyM, source },
    })
    const ring = (radius_m: number, what: 'canopy' | 'reach') => {
      if (radius_m <= 0) return
      const corners = Array.from({ length: CIRCLE_CORNERS + 1 }, (_, i) => {
        const angle = (2 * Math.PI * (i % CIRCLE_CORNERS)) / CIRCLE_CORNERS
        return [...plane.toLonLat([centre[0] + radius_m * Math.cos(angle), centre[1] + radius_m * Math.sin(angle)])]
      })
      const geometry: Polygon = { type: 'Polygon', coordinates: [corners] }
      canopies.features.push({
        type: 'Feature',
        geometry,
        properties: { id, ring: what, source, radius_m, assumed: spread.assumed },
      })
    }
    ring(spread.canopyM, 'canopy')
    if (source) ring(spread.reachM, 'reach')
  }
  return { trees, canopies }
}
