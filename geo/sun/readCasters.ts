import type { Geometry, Position } from 'geojson'
import { spreadOn } from '../measure/canopy.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { type Caster, SUPPORT_HEIGHT_M, type Wall } from './caster.ts'

/** What throws shadows on a day, in the farm's plane, and what can't because nobody told how high it is. */
export interface FarmCasters {
  readonly supports: readonly Caster[]
  readonly trees: readonly Caster[]
  readonly structures: readonly Caster[]
  /** Supports taken to be `SUPPORT_HEIGHT_M` high; trees taken to be as high as they are wide. */
  readonly assumedSupports: number
  readonly assumedTrees: number
  /** Names (else kinds) of lines and areas that are built and whose height is not told: they throw no shadow here. */
  readonly withoutHeight: readonly string[]
}

/** Ways, waters and water lines lie flat, whatever is told of them. */
const FLAT = /path|track|road|lane|water|river|stream|pond|ditch|lake|reservoir|gate/i

/**
 * Reads what throws shadows on a day: supports standing then as upright walls of their height (in leaf, as dense as a
 * wall), crowns from the ground to their height, grown to the day, and structures whose height is told.
 */
export async function readCasters(db: Database, on: string): Promise<FarmCasters> {
  const supports = await db.rows<{ line: string; height: number | null }>(
    `select encode(st_asewkb(st_force2d(s.plan)), 'hex') as line, coalesce(s.height_m, y.height_m) as height
     from supports s join systems y on y.id = s.system
     where standing(s.put_up, s.taken_down, $1::date) order by s.ord`,
    [on],
  )
  const trees = await db.rows<TreeRow>(
    `select species, planted, height_m, canopy_radius_m, measured, st_x(plan) as x, st_y(plan) as y
     from trees where standing(planted, removed, $1::date) order by ord`,
    [on],
  )
  const structures = await db.rows<{ kind: string; name: string | null; height_m: number | null; shape: string }>(
    `select kind, name, height_m, encode(st_asewkb(plan), 'hex') as shape from structures
     where st_dimension(plan) > 0 order by ord`,
  )
  return {
    supports: supports.flatMap(({ line, height }) => wallsOf(fromEwkb(line), height ?? SUPPORT_HEIGHT_M)),
    trees: trees.flatMap((tree) => crownOf(tree, on)),
    structures: structures.flatMap(({ height_m, shape }) => (height_m ? wallsOf(fromEwkb(shape), height_m) : [])),
    assumedSupports: supports.filter(({ height }) => height === null).length,
    assumedTrees: trees.filter(({ height_m }) => height_m === null).length,
    withoutHeight: structures.flatMap(({ kind, name, height_m }) =>
      height_m === null && !FLAT.test(kind) ? [name ?? kind] : [],
    ),
  }
}

type TreeRow = Parameters<typeof spreadOn>[0] & { readonly x: number; readonly y: number }

/** Height grows as the canopy does; where none was measured a tree is as high as it is wide. */
function crownOf(tree: TreeRow, on: string): Caster[] {
  const { canopyM } = spreadOn(tree, on)
  if (!(canopyM > 0)) return []
  const grown = tree.canopy_radius_m ? canopyM / tree.canopy_radius_m : 1
  const highM = tree.height_m ? tree.height_m * grown : 2 * canopyM
  return [{ shape: 'crown', at: [tree.x, tree.y], radiusM: canopyM, lowM: 0, highM }]
}

/** Upright faces along a line or about an area. */
export function wallsOf(geometry: Geometry, heightM: number): Wall[] {
  const along = (line: readonly Position[]) =>
    line.slice(1).map((to, n): Wall => ({ shape: 'wall', from: metres(line[n]!), to: metres(to), heightM }))
  switch (geometry.type) {
    case 'LineString':
      return along(geometry.coordinates)
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates.flatMap(along)
    case 'MultiPolygon':
      return geometry.coordinates.flat().flatMap(along)
    case 'GeometryCollection':
      return geometry.geometries.flatMap((one) => wallsOf(one, heightM))
    default:
      return []
  }
}

const metres = (at: Position): Metres => [at[0]!, at[1]!]
