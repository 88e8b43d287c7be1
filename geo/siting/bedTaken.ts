import type { Ground } from '../growing/ground.ts'
import { type StandsInto, standsInto } from '../growing/standsInto.ts'
import { distanceToLine } from '../plane/distance.ts'
import type { Metres } from '../plane/lonLat.ts'
import { type LotStanding, stockWords } from './standing.ts'

/** What takes rows of a bed when a plan begins; years are counted from 0 for the plan's first. */
export interface BedTaken {
  /** Of each row of the bed the first year in which it is open; of a bed without rows, of its whole width. */
  readonly rows: readonly { readonly line: readonly Metres[] | null; readonly openFrom: number }[]
  /** The first year in which any row is open: nothing climbs here before. */
  readonly openFrom: number
  /** The fewest rows that are open in a year in which any is. */
  readonly openRows: number
  /** What stands in it by name, and the first season in which its place is open; `whole` where no row is open until then. */
  readonly stands: readonly { readonly name: string; readonly until: number; readonly whole: boolean }[]
}

export interface TakenBy {
  /** The plan's first season, and the day before it. */
  readonly from: number
  readonly on: string
  readonly lots: ReadonlyMap<string, readonly LotStanding[]>
}

/** Stock is lifted in the first season of a plan, before its second. */
const LIFTED_BY = 1

/**
 * Of each bed which rows are taken, and how long: by stock, to be lifted first, and by what stands into the plan's
 * first season. A row is taken where anything stands in some of it; what is told by its bed alone takes every row.
 */
export function bedsTaken(ground: Ground, { from, on, lots }: TakenBy): ReadonlyMap<string, BedTaken> {
  const rows = byBed(ground.rows.values(), ({ bed }) => bed)
  const stands = byBed(standsInto(ground, { from, on }), ({ stand }) => stand.bed)
  return new Map(
    [...ground.beds.keys()].map((bed) => [
      bed,
      takenOf(rows.get(bed) ?? [], stands.get(bed) ?? [], lots.get(bed) ?? [], from),
    ]),
  )
}

function byBed<T>(list: Iterable<T>, bedOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const found = new Map<string, T[]>()
  for (const one of list) found.set(bedOf(one), [...(found.get(bedOf(one)) ?? []), one])
  return found
}

function takenOf(
  own: readonly { readonly id: string; readonly line: readonly Metres[] }[],
  stands: readonly StandsInto[],
  lots: readonly LotStanding[],
  from: number,
): BedTaken {
  const openFrom = (row: string | null) =>
    Math.max(
      0,
      ...stands.flatMap(({ stand, until }) => (stand.row === null || stand.row === row ? [until - from] : [])),
      ...(lots.some((lot) => lot.row === null || lot.row === row) ? [LIFTED_BY] : []),
    )
  const rows =
    own.length > 0
      ? own.map(({ id, line }) => ({ line, openFrom: openFrom(id) }))
      : [{ line: null, openFrom: openFrom(null) }]
  const first = Math.min(...rows.map((row) => row.openFrom))
  const until = new Map<string, number>()
  for (const { stand, until: season } of stands)
    until.set(stand.crop.name, Math.max(season, until.get(stand.crop.name) ?? season))
  return {
    rows,
    openFrom: first,
    openRows: rows.filter((row) => row.openFrom <= first).length,
    stands: [...until].map(([name, season]) => ({ name, until: season, whole: first >= season - from })),
  }
}

/** Two rows whose distances differ by less lie equally near. */
const AS_NEAR_M = 0.05

/** The first year in which a run along a line can be built, of the bed's own rows the nearest to it being open. */
export function openAlong({ rows, openFrom }: BedTaken, [[ax, ay], [bx, by]]: readonly [Metres, Metres]): number {
  const [x, y] = [(ax + bx) / 2, (ay + by) / 2]
  const far = rows.map(({ line }) => (line ? distanceToLine([x, y], line) : 0))
  const least = Math.min(...far)
  const near = rows.filter((_, n) => far[n]! <= least + AS_NEAR_M)
  return Math.max(openFrom, Math.min(...near.map((row) => row.openFrom)))
}

/** What stands in a bed, in words, each with how long. */
export const standingWords = (taken: BedTaken, lots: readonly LotStanding[]): string[] => [
  ...taken.stands.map(
    ({ name, until, whole }) => `${name} stands ${whole ? 'there' : 'in some of its rows'} until ${until}`,
  ),
  ...(lots.length > 0 ? [`${stockWords(lots)} stand in its rows, to be lifted first`] : []),
]
