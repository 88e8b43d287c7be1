import type { Point } from 'geojson'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import type { LonLat } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { readRecords } from '../store/row.ts'
import { spreadOn } from './canopy.ts'
import { isJugloneSource } from './juglone.ts'

/** A tree's spread by year. Metres from the trunk. */
export interface TreeYears {
  readonly id: string
  readonly name: string
  readonly at: LonLat
  /** A juglone source: its root reach counts besides its canopy. */
  readonly source: boolean
  /** No growth curve is published for it, or its size is not measured: it stays as it is, or is guessed. */
  readonly assumed: boolean
  readonly canopyM: readonly number[]
  readonly reachM: readonly number[]
}

/** A bed that a tree comes over, or reaches with its roots, within the years; null where it does not. */
export interface BedUnder {
  readonly bed: string
  readonly tree: string
  readonly canopyFrom: number | null
  readonly reachFrom: number | null
}

export interface CanopyYears {
  /** Each with its spread on the day asked of, and on the same day of each year after. */
  readonly years: readonly number[]
  readonly trees: readonly TreeYears[]
  readonly under: readonly BedUnder[]
}

/** Spread of every tree standing on a day, then and in each of so many years after, and the first year over each bed. */
export async function canopyYears(db: Database, on: string, ahead: number): Promise<CanopyYears> {
  const years = Array.from({ length: ahead + 1 }, (_, n) => Number(on.slice(0, 4)) + n)
  const stored = (await readRecords(db, treeKind)) as unknown as Tree[]
  const standing = stored.filter((tree) => (tree.planted ?? on) <= on && (tree.removed === null || tree.removed > on))
  const trees = standing.map((tree): TreeYears => {
    const spreads = years.map((year) => spreadOn(tree, dayIn(year, on)))
    return {
      id: tree.id,
      name: tree.name ?? tree.species,
      at: (tree.geom as Point).coordinates as unknown as LonLat,
      source: isJugloneSource(tree),
      assumed: spreads.at(-1)!.assumed,
      canopyM: spreads.map(({ canopyM }) => canopyM),
      reachM: spreads.map(({ reachM }) => reachM),
    }
  })
  const widest = trees.map(({ id, source, canopyM, reachM }) => ({
    id,
    far_m: Math.max(...canopyM, ...(source ? reachM : [])),
  }))
  const near = await db.rows<{ bed: string; tree: string; trunk_m: number }>(
    `select b.id as bed, t.id as tree, st_distance(t.plan, b.plan) as trunk_m
     from jsonb_to_recordset($1::jsonb) as x(id text, far_m double precision)
     join trees t on t.id = x.id join beds b on st_dwithin(t.plan, b.plan, x.far_m)
     where standing(b.made, b.retired, $2::date) order by b.ord, trunk_m, t.id`,
    [JSON.stringify(widest), on],
  )
  const byId = new Map(trees.map((tree) => [tree.id, tree]))
  const first = (radii: readonly number[], farM: number) => {
    const at = radii.findIndex((radiusM) => radiusM > farM)
    return at < 0 ? null : years[at]!
  }
  return {
    years,
    trees,
    under: near.flatMap(({ bed, tree: id, trunk_m }) => {
      const tree = byId.get(id)!
      const canopyFrom = first(tree.canopyM, trunk_m)
      const reachFrom = tree.source ? first(tree.reachM, trunk_m) : null
      return canopyFrom === null && reachFrom === null ? [] : [{ bed, tree: id, canopyFrom, reachFrom }]
    }),
  }
}

/** The same day of another year; 29 February is the 28th where there is none. */
function dayIn(year: number, on: string): string {
  const day = `${String(year).padStart(4, '0')}${on.slice(4)}`
  return on.endsWith('-02-29') && !isLeap(year) ? `${day.slice(0, 8)}28` : day
}

const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
