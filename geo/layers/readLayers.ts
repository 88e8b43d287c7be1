import { planeAbout } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { LAYERS, type Layer, type LayerName } from './layer.ts'
import { stretchLayer } from './stretchLayer.ts'
import { treeLayers } from './treeLayers.ts'

export type Layers = { readonly [L in LayerName]: Layer<L> }

/** Which records to read, by kind; a kind left out gives none of its features. Plantings give stretches, trees give canopies too. */
export type Scope = Readonly<Record<string, readonly string[]>>

/** The farm's things as features in lon/lat, as on a day; all of them, or those in scope. */
export async function readLayers(db: Database, on: string, scope: Scope | null = null): Promise<Layers> {
  const layers: Record<string, Layer> = {}
  for (const name of LAYERS) layers[name] = { type: 'FeatureCollection', features: [] }
  const origin = await readOrigin(db)
  if (!origin) return layers as unknown as Layers
  const plane = planeAbout(origin)
  const idsOf = (kind: string) => (scope ? (scope[kind] ?? []) : null)
  for (const { layer, props, from } of SIMPLE) {
    const ids = idsOf(layer)
    if (ids?.length !== 0)
      layers[layer] = { type: 'FeatureCollection', features: await simple(db, props, from, on, ids) }
  }
  if (idsOf('trees')?.length !== 0) Object.assign(layers, await treeLayers(db, plane, on, idsOf('trees')))
  if (idsOf('plantings')?.length !== 0) layers.stretches = await stretchLayer(db, plane, on, idsOf('plantings'))
  return layers as unknown as Layers
}

async function simple(db: Database, props: string, from: string, on: string, ids: readonly string[] | null) {
  const [row] = await db.rows<{ features: string | null }>(
    `select '[' || string_agg('{"type":"Feature","geometry":' || st_asgeojson(t.geom, 9) || ',"properties":' || p.props || '}', ',' order by t.ord) || ']' as features
     from ${from} cross join lateral (select json_build_object(${props})::text as props) p
     where ($1::text[] is null or t.id = any($1)) and ($2::date is null or true)`,
    [ids, on],
  )
  return JSON.parse(row?.features ?? '[]')
}

/** Layers whose features are one record each: the properties and where they come from. $2 is the day. */
const SIMPLE: readonly { layer: LayerName; props: string; from: string }[] = [
  { layer: 'fields', props: `'id', t.id, 'name', t.name, 'area_m2', st_area(t.plan)`, from: 'fields t' },
  {
    layer: 'beds',
    props: `'id', t.id, 'name', t.name, 'field', t.field, 'area_m2', st_area(t.plan), 'standing', standing(t.made, t.retired, $2::date), 'stock', coalesce(s.stock, 0), 'dressed', d.dressed`,
    from: `beds t
      left join (
        select coalesce(r.bed, l.bed) as bed, sum(stock_standing(l.id, l.count, $2::date)) as stock
        from stock_lots l left join rows r on r.id = l.row group by 1
      ) s on s.bed = t.id
      left join (
        select bed, max("on") as dressed from dressings where "on" between $2::date - 365 and $2::date group by bed
      ) d on d.bed = t.id`,
  },
  {
    layer: 'rows',
    props: `'id', t.id, 'bed', t.bed, 'name', t.name, 'side', t.side, 'length_m', st_length(t.plan)`,
    from: 'rows t',
  },
  {
    layer: 'supports',
    props: `'id', t.id, 'system', t.system, 'system_name', y.name, 'permanent', coalesce(t.permanent, false), 'put_up', t.put_up, 'length_m', st_length(t.plan)`,
    from: 'supports t join systems y on y.id = t.system and standing(t.put_up, t.taken_down, $2::date)',
  },
  { layer: 'structures', props: `'id', t.id, 'kind', t.kind, 'name', t.name`, from: 'structures t' },
  {
    layer: 'observations',
    props: `'id', t.id, 'on', t."on", 'kind', t.kind, 'severity', t.severity`,
    from: `(select * from observations where "on" between $2::date - 365 and $2::date) t`,
  },
]
