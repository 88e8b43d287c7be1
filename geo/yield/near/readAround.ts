import type { LineString } from 'geojson'
import { spreadOn } from '../../measure/canopy.ts'
import { isJugloneSource } from '../../measure/juglone.ts'
import type { Metres } from '../../plane/lonLat.ts'
import type { Database } from '../../store/database.ts'
import { fromEwkb } from '../../store/ewkb.ts'
import { SUPPORT_HEIGHT_M } from '../../sun/caster.ts'
import type { SeasonSpan } from '../season.ts'

/** A line or the outline of an area, in the plane. */
export type Path = readonly Metres[]

/** All that lies about the plots of a season, in the farm's plane. */
export interface Around {
  readonly fieldEdges: readonly Path[]
  readonly fences: readonly Path[]
  readonly trees: readonly {
    readonly at: Metres
    readonly canopyM: number
    readonly heightM: number
    readonly juglone: boolean
  }[]
  readonly supports: readonly { readonly path: Path; readonly heightM: number }[]
  readonly dressings: readonly { readonly bed: string; readonly material: string }[]
  readonly seen: readonly { readonly at: Metres; readonly kind: string; readonly on: string }[]
  readonly history: readonly {
    readonly bed: string
    readonly family: string
    readonly setOut: string
    readonly cleared: string | null
  }[]
}

/** Dressings from half a year before the season on are looked at. */
const DRESSED_BEFORE = "interval '6 months'"

/** Reads what lay about a season's plots; canopies are grown to the season's middle. */
export async function readAround(db: Database, { from, to }: SeasonSpan): Promise<Around> {
  const days = [from, to]
  const middle = new Date((Date.parse(from) + Date.parse(to)) / 2).toISOString().slice(0, 10)
  const lines = await db.rows<{ what: 'field' | 'fence'; line: string }>(
    `select what, encode(st_asewkb((st_dump(line)).geom), 'hex') as line from (
       select 'field' as what, st_boundary(plan) as line from fields
       union all select 'fence', case when st_dimension(plan) = 2 then st_boundary(plan) else plan end
       from structures where kind ~* '\\mfence' and st_dimension(plan) > 0) l`,
  )
  const trees = await db.rows<TreeRow>(
    `select species, planted, height_m, canopy_radius_m, measured, rootstock, juglone, st_x(plan) as x, st_y(plan) as y
     from trees where coalesce(planted <= $2::date, true) and coalesce(removed > $1::date, true)`,
    days,
  )
  const supports = await db.rows<{ line: string; height: number | null }>(
    `select encode(st_asewkb(s.plan), 'hex') as line, coalesce(s.height_m, y.height_m) as height
     from supports s join systems y on y.id = s.system
     where coalesce(s.put_up <= $2::date, true) and coalesce(s.taken_down > $1::date, true)`,
    days,
  )
  return {
    fieldEdges: lines.flatMap(({ what, line }) => (what === 'field' ? [asPath(line)] : [])),
    fences: lines.flatMap(({ what, line }) => (what === 'fence' ? [asPath(line)] : [])),
    trees: trees.map(({ x, y, ...tree }) => {
      const { canopyM } = spreadOn(tree, middle)
      return { at: [x, y], canopyM, heightM: tree.height_m ?? 2 * canopyM, juglone: isJugloneSource(tree) }
    }),
    supports: supports.map(({ line, height }) => ({ path: asPath(line), heightM: height ?? SUPPORT_HEIGHT_M })),
    dressings: await db.rows(
      `select distinct bed, material from dressings where "on" between $1::date - ${DRESSED_BEFORE} and $2::date`,
      days,
    ),
    seen: (
      await db.rows<{ x: number; y: number; kind: string; on: string }>(
        `select st_x(plan) as x, st_y(plan) as y, kind, "on" from observations where "on" between $1::date and $2::date`,
        days,
      )
    ).map(({ x, y, ...seen }) => ({ at: [x, y], ...seen })),
    history: await db.rows(
      `select coalesce(r.bed, p.bed) as bed, c.family, p.set_out as "setOut", p.cleared
       from plantings p join varieties v on v.id = p.variety join crops c on c.id = v.crop left join rows r on r.id = p.row
       where p.set_out <= $2::date and coalesce(p.cleared, p.set_out) >= $1::date - interval '3 years'`,
      days,
    ),
  }
}

type TreeRow = Parameters<typeof spreadOn>[0] &
  Parameters<typeof isJugloneSource>[0] & { readonly x: number; readonly y: number }

const asPath = (hex: string): Path =>
  (fromEwkb(hex) as LineString).coordinates.map((point): Metres => [point[0]!, point[1]!])
