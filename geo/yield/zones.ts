import { boxesNear, boxGrid } from './boxGrid.ts'
import type { Standing } from './hotAndCold.ts'
import type { Bounds, Ring } from './ring.ts'
import { ringsBounds } from './ring.ts'
import { nearestOnRing } from './spotGround.ts'
import type { Stretch } from './stretches.ts'

/** Neighbouring cold stretches together. */
export type LowYieldZone = {
  readonly areaM2: number
  readonly kg: number
  readonly expectedKg: number
  /** kg over expected kg. */
  readonly index: number
  readonly shortfallKg: number
  /** Metres of row that would give the shortfall if they gave what was expected of the zone's own. */
  readonly shortfallRowM: number
  /** Places of its beds in the list of beds. */
  readonly beds: readonly number[]
  /** Places of its stretches in the list of stretches. */
  readonly stretches: readonly number[]
}

/** Stretches that are no further apart than this are neighbours: it takes in a path between two beds. */
const ACROSS_A_PATH_M = 2.5

/**
 * Low-yield zones: stretches colder than chance would have it at the false discovery rate `alpha`, joined where they
 * lie within 2.5 m of each other; the greatest shortfall first. A zone holds at least one stretch colder than
 * `coldestByChance`, so that a farm where nothing is the matter shows any zone three times in a hundred.
 */
export function lowYieldZones(
  stretches: readonly Stretch[],
  standings: readonly (Standing | null)[],
  alpha: number,
  coldestByChance: number,
): LowYieldZone[] {
  const cold = standings.flatMap((s, k) => (s !== null && s.z < 0 && s.q <= alpha ? [k] : []))
  const joined = joinedGroups(cold.map((k) => stretches[k]!.rings))
  const groups = joined.filter((group) => group.some((g) => standings[cold[g]!]!.z < coldestByChance))
  const zones = groups.map((group): LowYieldZone => {
    const members = group.map((g) => cold[g]!)
    const sum = (value: (s: Stretch) => number): number => members.reduce((t, k) => t + value(stretches[k]!), 0)
    const kg = sum((s) => s.kg)
    const expectedKg = sum((s) => s.expectedKg)
    return {
      areaM2: sum((s) => s.areaM2),
      kg,
      expectedKg,
      index: kg / expectedKg,
      shortfallKg: expectedKg - kg,
      shortfallRowM: sum((s) => s.rowM) * (1 - kg / expectedKg),
      beds: [...new Set(members.map((k) => stretches[k]!.bed))],
      stretches: members,
    }
  })
  return zones.sort((a, b) => b.shortfallKg - a.shortfallKg)
}

/** Pairs of shapes that lie within the path's width of each other, and how far apart they are. */
export function pairsAcrossAPath(shapes: readonly (readonly Ring[])[]): { a: number; b: number; apartM: number }[] {
  const boxes = shapes.map((rings) => widened(ringsBounds(rings), ACROSS_A_PATH_M / 2))
  const grid = boxGrid(boxes, 2 * ACROSS_A_PATH_M)
  return boxes.flatMap((box, a) =>
    boxesNear(grid, box).flatMap((b) => {
      if (b <= a || !boxesMeet(box, boxes[b]!)) return []
      const apartM = shapesApartM(shapes[a]!, shapes[b]!)
      return apartM <= ACROSS_A_PATH_M ? [{ a, b, apartM }] : []
    }),
  )
}

/** Groups of shapes that hang together within the path's width (union–find). */
function joinedGroups(shapes: readonly (readonly Ring[])[]): number[][] {
  const parent = shapes.map((_, k) => k)
  const rootOf = (k: number): number => {
    let at = k
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!
      at = parent[at]!
    }
    return at
  }
  for (const { a, b } of pairsAcrossAPath(shapes)) parent[rootOf(b)] = rootOf(a)
  const groups = new Map<number, number[]>()
  parent.forEach((_, k) => {
    const root = rootOf(k)
    const group = groups.get(root)
    if (group === undefined) groups.set(root, [k])
    else group.push(k)
  })
  return [...groups.values()]
}

function widened([minX, minY, maxX, maxY]: Bounds, by: number): Bounds {
  return [minX - by, minY - by, maxX + by, maxY + by]
}

function boxesMeet(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3]
}

/** Least distance between the outlines of two shapes that don't cross: it is had at a corner of one of them. */
function shapesApartM(a: readonly Ring[], b: readonly Ring[]): number {
  return Math.min(cornersToOutlineM(a, b), cornersToOutlineM(b, a))
}

function cornersToOutlineM(corners: readonly Ring[], outline: readonly Ring[]): number {
  let least = Number.POSITIVE_INFINITY
  for (const ring of corners) {
    for (let k = 0; k < ring.length; k += 2) {
      for (const other of outline) {
        const [x, y] = nearestOnRing(other, ring[k]!, ring[k + 1]!)
        least = Math.min(least, Math.hypot(x - ring[k]!, y - ring[k + 1]!))
      }
    }
  }
  return least
}
