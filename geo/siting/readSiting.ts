import { familyNamed, returnYears } from '../catalogue/families.ts'
import { readGround } from '../growing/readGround.ts'
import { spreadOn } from '../measure/canopy.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import { type StockLot, type StockMove, stockLots, stockMoves } from '../model/stock.ts'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import type { LonLat, Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'
import { lotOnDay } from '../stock/lotOnDay.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { readOrigin } from '../store/origin.ts'
import { readRecords } from '../store/row.ts'
import { readRecipes } from '../supports/readRecipes.ts'
import type { Recipe } from '../supports/recipe.ts'
import { type Side, sideLine } from '../supports/sideLine.ts'
import { reckonYield } from '../yield/reckonYield.ts'
import { seasonOf, seasonSpan } from '../yield/season.ts'
import { lengthWithin } from './lengthWithin.ts'
import { type PlanFault, type SitingAsked, WEIGHTS, type Weight } from './planFile.ts'
import type { Family, Site, SitingBed, SitingProblem } from './problem.ts'
import { insteadPerM, permanentCosts } from './runCosts.ts'
import { shadeOfSites } from './shadeOfSites.ts'

export const SIDES: readonly Side[] = ['left', 'middle', 'right']
/** Beds shorter than this get no support of their own. */
const SHORTEST_M = 3
/** A permanent support that runs along so much of a site stands there already. */
const STANDS_SHARE = 0.8
const STANDS_WITHIN_M = 0.4
/** Height of a leafed support whose system tells none. */
const USUAL_HEIGHT_M = 1.8

/** A place where a permanent support may stand, with what it would cost, shade and disturb. */
export interface SiteSeen {
  readonly side: Side
  readonly line: readonly [Metres, Metres]
  readonly lengthM: number
  readonly first: number
  readonly shade: number
  /** Angle to the wind, 0 along it and 90 square to it; null where no wind is told. */
  readonly windDeg: number | null
  readonly stands: boolean
  readonly forbidden: boolean
  readonly preferred: boolean
}

/** A bed as the choice sees it. */
export interface BedSeen {
  readonly id: string
  readonly name: string
  readonly field: string
  readonly lengthM: number
  readonly sites: readonly SiteSeen[]
  /** Lots that stand in it when the plan begins, to be lifted before posts are driven. */
  readonly lots: readonly { readonly id: string; readonly kind: string; readonly standing: number }[]
  /** First year that a walnut's roots reach its middle line, and that a canopy does; null where neither does within the horizon. */
  readonly walnutFrom: number | null
  readonly canopyFrom: number | null
  /** What it gave of what was expected in the season before; null where there is too little to tell. */
  readonly index: number | null
}

/** All that the choice is made from. */
export interface SitingReading {
  readonly asked: SitingAsked
  readonly problem: SitingProblem
  /** In the order of the problem's beds, their sites all three sides. */
  readonly beds: readonly BedSeen[]
  /** By bed of the problem: which of the three sides each of its sites is. */
  readonly weights: Readonly<Record<Weight, number>>
  readonly notes: readonly string[]
  /** Families whose climbing crops are sensitive to juglone. */
  readonly sensitive: readonly string[]
}

/** Reads the farm for a plan; faults where the plan names what is not there. */
export async function readSiting(
  db: Database,
  asked: SitingAsked,
): Promise<{ reading: SitingReading } | { faults: readonly PlanFault[] }> {
  const recipes = await readRecipes(db)
  const [farm] = await db.rows<{ month: number }>('select season_start_month as month from farm')
  const month = farm?.month ?? 1
  const origin = (await readOrigin(db)) ?? ([0, 0] as LonLat)
  const start = seasonSpan(asked.from, month).from
  const outlines = await db.rows<{ id: string; name: string; field: string; area: number; shape: string }>(
    `select id, name, field, st_area(plan) as area, encode(st_asewkb(plan), 'hex') as shape from beds
     where (retired is null or retired > $1::date) order by ord`,
    [start],
  )
  const faults = faultsOf(asked, recipes, new Set(outlines.map(({ id }) => id)))
  if (faults.length > 0) return { faults }
  const [system, pulled] = [asked.system, asked.instead].map((id) => recipes.find((one) => one.id === id)!) as [
    Recipe,
    Recipe,
  ]
  const weights = Object.fromEntries(
    Object.entries(WEIGHTS).map(([name, { usual }]) => [name, asked.weights[name as Weight] ?? usual]),
  ) as Record<Weight, number>
  const notes: string[] = []
  const laid = outlines.flatMap(({ shape, ...bed }) => {
    const ring = (fromEwkb(shape) as unknown as { coordinates: Metres[][] }).coordinates[0]!
    const lines = SIDES.map((side) => sideLine(ring, side))
    const middle = lines[1]
    if (!middle) return []
    const lengthM = Math.hypot(middle[1][0] - middle[0][0], middle[1][1] - middle[0][1])
    return lengthM < SHORTEST_M ? [] : [{ ...bed, lengthM, middle, lines: lines as [Metres, Metres][] }]
  })
  if (laid.length === 0) return { faults: [{ field: 'from', reason: `no bed of ${SHORTEST_M} m or more stands then` }] }

  const ground = await readGround(db, null)
  const families = Object.entries(asked.need).map(([name, needM]): Family => {
    const known = returnYears({ family: name, return_years: null, return_source: null })
    const years = asked.return_years[name] ?? known?.[0] ?? 3
    if (asked.return_years[name] === undefined)
      notes.push(
        `${name} returns after ${years} years: ${known?.[1] ?? 'a common minimum; nothing more is known of it'}.`,
      )
    return { name, needM, returnYears: years }
  })
  const years = Array.from({ length: asked.years }, (_, t) => asked.from + t)
  const summer = (year: number) => (origin[1] >= 0 ? `${year}-07-01` : `${year + 1}-01-01`)

  const climbing = [...ground.crops.values()].filter(({ climbs }) => climbs === true)
  const sensitive = families
    .map(({ name }) => name)
    .filter((name) => climbing.some((crop) => familyNamed(crop.family) === name && crop.juglone === 'sensitive'))
  const lastSeason = lastSeasons(ground, month, asked.from)
  const sideBySide = climbingRows(ground, month)
  const trees = await treesOf(db)
  const lots = await lotsStanding(db, start)
  const standing = await standingRuns(db, start)
  const lengths = laid.map(({ lengthM }) => lengthM).sort((a, b) => a - b)
  const usualM = lengths[Math.floor(lengths.length / 2)]!
  const one = insteadPerM(usualM, pulled, asked.labour_per_hour)
  const usual = permanentCosts(usualM, system, asked.years, asked.labour_per_hour)
  for (const part of new Set([...one.unknown, ...usual.unknown])) notes.push(`Not counted or without a price: ${part}.`)
  if (asked.labour_per_hour === 0) notes.push('Labour is not priced.')
  const shade = shadeOfSites(
    laid.map(({ middle, lengthM, area }) => ({ middle, lengthM, areaM2: area })),
    laid.flatMap(({ lines }) => lines),
    system.heightM ?? USUAL_HEIGHT_M,
    origin,
    asked.from,
  )
  if (system.heightM === null)
    notes.push(`Shade is reckoned for a support ${USUAL_HEIGHT_M} m tall: its system tells no height.`)
  const indexes = weights.low_yield > 0 ? await indexesOf(db, asked.from - 1) : new Map<string, number | null>()

  const beds = laid.map((bed, n): BedSeen => {
    const reached = (radius: (tree: Tree, on: string) => number, which: readonly { tree: Tree; at: Metres }[]) =>
      years.find((year) =>
        which.some(
          ({ tree, at }) => isThere(tree, summer(year)) && lengthWithin(bed.middle, at, radius(tree, summer(year))) > 0,
        ),
      ) ?? null
    return {
      id: bed.id,
      name: bed.name,
      field: bed.field,
      lengthM: bed.lengthM,
      lots: lots.get(bed.id) ?? [],
      walnutFrom: reached(
        (tree, on) => spreadOn(tree, on).reachM,
        trees.filter(({ tree }) => isJugloneSource(tree)),
      ),
      canopyFrom: reached((tree, on) => spreadOn(tree, on).canopyM, trees),
      index: indexes.get(bed.id) ?? null,
      sites: SIDES.map((side, s): SiteSeen => {
        const line = bed.lines[s]!
        const along = standing.some(
          (run) => spansLength(spansWithin(line, [run], STANDS_WITHIN_M)) >= STANDS_SHARE * bed.lengthM,
        )
        return {
          side,
          line,
          lengthM: bed.lengthM,
          first: along ? 0 : permanentCosts(bed.lengthM, system, asked.years, asked.labour_per_hour).first,
          shade: shade[n * SIDES.length + s]!,
          windDeg: asked.wind_from_deg === null ? null : angleTo(line, asked.wind_from_deg),
          stands: along,
          forbidden: asked.forbid.some((row) => row.bed === bed.id && row.side === side),
          preferred: asked.prefer.some((row) => row.bed === bed.id && row.side === side),
        }
      }),
    }
  })
  const problem: SitingProblem = {
    years: asked.years,
    families,
    insteadPerM: one.perM,
    usePerM: usual.usePerM,
    budget: asked.budget,
    beds: beds.map((seen, n): SitingBed => {
      const fix = asked.fix.find((row) => row.bed === seen.id)
      const costs = permanentCosts(seen.lengthM, system, asked.years, asked.labour_per_hour)
      return {
        id: seen.id,
        lengthM: seen.lengthM,
        rows: sideBySide.get(seen.id) ?? 1,
        fixed: fix !== undefined,
        freeFrom: families.map(({ name, returnYears }) => {
          const last = lastSeason.get(seen.id)?.get(name)
          return last === undefined ? 0 : Math.max(0, last + returnYears - asked.from)
        }),
        burden: families.map(({ name }) =>
          years.map((year) => {
            const within = (radius: (tree: Tree) => number, which: readonly { tree: Tree; at: Metres }[]) =>
              Math.max(
                0,
                ...which
                  .filter(({ tree }) => isThere(tree, summer(year)))
                  .map(({ tree, at }) => lengthWithin(laid[n]!.middle, at, radius(tree))),
              )
            const walnut = sensitive.includes(name)
              ? within(
                  (tree) => spreadOn(tree, summer(year)).reachM,
                  trees.filter(({ tree }) => isJugloneSource(tree)),
                )
              : 0
            const beneath = within((tree) => spreadOn(tree, summer(year)).canopyM, trees)
            const poor = seen.index === null ? 0 : Math.max(0, 1 - seen.index)
            return weights.juglone * walnut + weights.canopy * beneath + weights.low_yield * poor * seen.lengthM
          }),
        ),
        sites: seen.sites
          .filter(({ side, forbidden }) => (fix ? fix.side === side : !forbidden))
          .map(
            (site): Site => ({
              side: site.side,
              earliest: site.stands || seen.lots.length === 0 ? 0 : 1,
              first: site.first,
              cost: site.stands ? years.map(() => 0) : costs.byBuilt,
              weighed: years.map(
                // What stands already shades, and lies to the wind, whatever is chosen.
                (_, t) =>
                  site.stands
                    ? 0
                    : weights.shade * site.shade * (asked.years - t) +
                      (site.windDeg === null
                        ? 0
                        : weights.wind * site.lengthM * Math.sin((site.windDeg * Math.PI) / 180)) -
                      (site.preferred ? weights.prefer : 0),
              ),
            }),
          ),
      }
    }),
  }
  return { reading: { asked, problem, beds, weights, notes, sensitive } }
}

function faultsOf(asked: SitingAsked, recipes: readonly Recipe[], beds: ReadonlySet<string>): PlanFault[] {
  const known = new Set(recipes.map(({ id }) => id))
  return [
    ...(['system', 'instead'] as const)
      .filter((field) => !known.has(asked[field]))
      .map((field) => ({ field, reason: `there is no support system ${JSON.stringify(asked[field])}` })),
    ...(['fix', 'forbid', 'prefer'] as const).flatMap((field) =>
      asked[field]
        .filter(({ bed }) => !beds.has(bed))
        .map(({ bed }) => ({ field, reason: `there is no bed ${JSON.stringify(bed)} then` })),
    ),
  ]
}

/** By bed: the most rows that climbed in it in one season. */
function climbingRows(ground: Awaited<ReturnType<typeof readGround>>, month: number): Map<string, number> {
  const rows = new Map<string, Map<number, Set<string>>>()
  for (const { row, variety, set_out: setOut } of ground.plantings) {
    const bed = row === null ? undefined : ground.rows.get(row)?.bed
    if (!row || !bed || ground.crops.get(ground.varieties.get(variety)?.crop ?? '')?.climbs !== true) continue
    const seasons = rows.get(bed) ?? new Map<number, Set<string>>()
    const season = seasonOf(setOut, month)
    seasons.set(season, (seasons.get(season) ?? new Set()).add(row))
    rows.set(bed, seasons)
  }
  return new Map([...rows].map(([bed, seasons]) => [bed, Math.max(...[...seasons.values()].map(({ size }) => size))]))
}

/** By bed and family: the last season before the plan in which it stood there. */
function lastSeasons(
  ground: Awaited<ReturnType<typeof readGround>>,
  month: number,
  from: number,
): Map<string, Map<string, number>> {
  const last = new Map<string, Map<string, number>>()
  for (const { row, bed, variety, set_out: setOut } of ground.plantings) {
    const at = bed ?? (row === null ? null : ground.rows.get(row)?.bed)
    const crop = ground.crops.get(ground.varieties.get(variety)?.crop ?? '')
    const season = seasonOf(setOut, month)
    if (!at || !crop || season >= from) continue
    const families = last.get(at) ?? new Map<string, number>()
    const family = familyNamed(crop.family)
    families.set(family, Math.max(season, families.get(family) ?? season))
    last.set(at, families)
  }
  return last
}

async function treesOf(db: Database): Promise<{ tree: Tree; at: Metres }[]> {
  const trees = (await readRecords(db, treeKind)) as unknown as Tree[]
  const places = await db.rows<{ id: string; x: number; y: number }>(
    'select id, st_x(plan) as x, st_y(plan) as y from trees',
  )
  const at = new Map(places.map(({ id, x, y }): [string, Metres] => [id, [x, y]]))
  return trees.map((tree) => ({ tree, at: at.get(tree.id)! }))
}

const isThere = (tree: Tree, on: string) => (tree.planted ?? on) <= on && (tree.removed === null || tree.removed > on)

/** By bed: lots that still stand in it on a day. */
async function lotsStanding(
  db: Database,
  on: string,
): Promise<Map<string, { id: string; kind: string; standing: number }[]>> {
  const lots = (await readRecords(db, stockLots)) as unknown as StockLot[]
  const moves = (await readRecords(db, stockMoves)) as unknown as StockMove[]
  const bedOf = new Map(
    (await db.rows<{ id: string; bed: string }>('select id, bed from rows')).map(({ id, bed }) => [id, bed]),
  )
  const found = new Map<string, { id: string; kind: string; standing: number }[]>()
  for (const lot of lots) {
    const bed = lot.bed ?? bedOf.get(lot.row ?? '')
    const { standing } = lotOnDay(
      lot.count,
      moves.filter((move) => move.lot === lot.id),
      on,
    )
    if (!bed || standing <= 0) continue
    found.set(bed, [...(found.get(bed) ?? []), { id: lot.id, kind: lot.kind, standing }])
  }
  return found
}

/** Lines of permanent supports that stand on a day. */
async function standingRuns(db: Database, on: string): Promise<Metres[][]> {
  const runs = await db.rows<{ shape: string }>(
    `select encode(st_asewkb(plan), 'hex') as shape from supports where permanent and standing(put_up, taken_down, $1::date)`,
    [on],
  )
  return runs.map(({ shape }) => (fromEwkb(shape) as unknown as { coordinates: Metres[] }).coordinates)
}

async function indexesOf(db: Database, season: number): Promise<Map<string, number | null>> {
  const { report } = await reckonYield(db, { season })
  return new Map(report.beds.map(({ id, index }) => [id, index]))
}

/** Angle between a line and the wind's way, 0–90°. */
function angleTo([[ax, ay], [bx, by]]: readonly [Metres, Metres], windFromDeg: number): number {
  const bearing = (Math.atan2(bx - ax, by - ay) * 180) / Math.PI
  const off = (((bearing - windFromDeg) % 180) + 180) % 180
  return Math.min(off, 180 - off)
}
