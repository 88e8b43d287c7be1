import { familyNamed, returnYears } from '../catalogue/families.ts'
import { addDays } from '../growing/days.ts'
import { readGround } from '../growing/readGround.ts'
import type { LonLat, Metres } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { readOrigin } from '../store/origin.ts'
import { SUPPORT_HEIGHT_M } from '../sun/caster.ts'
import { readRecipes } from '../supports/readRecipes.ts'
import type { Recipe } from '../supports/recipe.ts'
import { SIDES, sideLine } from '../supports/sideLine.ts'
import { reckonYield } from '../yield/reckonYield.ts'
import { seasonSpan } from '../yield/season.ts'
import { climbingRows, lastSeasons } from './bedHistory.ts'
import { bedsTaken, openAlong, standingWords } from './bedTaken.ts'
import type { PlanFault, SitingAsked } from './planFile.ts'
import type { Family, Site, SitingBed, SitingProblem } from './problem.ts'
import { renewalMoney, renewalsOf } from './renewals.ts'
import { runAlong } from './runAlong.ts'
import { insteadPerM, permanentCosts } from './runCosts.ts'
import { shadeOfSites } from './shadeOfSites.ts'
import type { BedSeen, SiteSeen, SitingReading } from './sitingReading.ts'
import { lotsStanding, standingRuns } from './standing.ts'
import { metresWithin, treesByYear } from './treesByYear.ts'
import { WEIGHTS, type Weight } from './weights.ts'

/** Beds shorter than this get no support of their own. */
const SHORTEST_M = 3

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
    if (lengthM < SHORTEST_M) return []
    const costs = permanentCosts(lengthM, system, asked.years, asked.labour_per_hour)
    return [{ ...bed, lengthM, middle, lines: lines as [Metres, Metres][], costs }]
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
  const trees = await treesByYear(db, years.map(summer))
  const lots = await lotsStanding(db, start)
  const taken = bedsTaken(ground, { from: asked.from, on: addDays(start, -1), lots })
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
    system.heightM ?? SUPPORT_HEIGHT_M,
    origin,
    asked.from,
  )
  if (system.heightM === null)
    notes.push(`Shade is reckoned for a support ${SUPPORT_HEIGHT_M} m tall: its system tells no height.`)
  const indexes = weights.low_yield > 0 ? await indexesOf(db, asked.from - 1) : new Map<string, number | null>()

  const near = laid.map(({ middle }) => ({
    walnutM: metresWithin(middle, trees, 'reachM', asked.years),
    beneathM: metresWithin(middle, trees, 'canopyM', asked.years),
  }))
  let ageless = 0
  const beds = laid.map((bed, n): BedSeen => {
    const first = (metres: readonly number[]) => years[metres.findIndex((m) => m > 0)] ?? null
    return {
      id: bed.id,
      name: bed.name,
      field: bed.field,
      lengthM: bed.lengthM,
      lots: lots.get(bed.id) ?? [],
      taken: taken.get(bed.id)!,
      walnutFrom: first(near[n]!.walnutM),
      canopyFrom: first(near[n]!.beneathM),
      index: indexes.get(bed.id) ?? null,
      sites: SIDES.map((side, s): SiteSeen => {
        const line = bed.lines[s]!
        const along = runAlong(line, standing)
        const aged = along && renewalsOf(along, bed.lengthM, recipes, { from: asked.from, years: asked.years, month })
        if (along && !aged) ageless++
        return {
          side,
          line,
          lengthM: bed.lengthM,
          first: along ? 0 : bed.costs.first,
          shade: shade[n * SIDES.length + s]!,
          windDeg: asked.wind_from_deg === null ? null : angleTo(line, asked.wind_from_deg),
          stands: along !== undefined,
          renewals: aged ?? [],
          forbidden: asked.forbid.some((row) => row.bed === bed.id && row.side === side),
          preferred: asked.prefer.some((row) => row.bed === bed.id && row.side === side),
        }
      }),
    }
  })
  if (ageless > 0)
    notes.push(
      `${ageless === 1 ? 'One permanent support that stands tells' : `${ageless} permanent supports that stand tell`} no day of putting up: nothing is counted for renewing ${ageless === 1 ? 'it' : 'them'}.`,
    )
  const shut = fixedShut(asked, beds)
  if (shut.length > 0) return { faults: shut }
  const problem: SitingProblem = {
    years: asked.years,
    families,
    insteadPerM: one.perM,
    usePerM: usual.usePerM,
    budget: asked.budget,
    beds: beds.map((seen, n): SitingBed => {
      const fix = asked.fix.find((row) => row.bed === seen.id)
      const { walnutM, beneathM } = near[n]!
      const poor = seen.index === null ? 0 : Math.max(0, 1 - seen.index)
      return {
        id: seen.id,
        lengthM: seen.lengthM,
        rows: Math.min(sideBySide.get(seen.id) ?? 1, seen.taken.openRows),
        fixed: fix !== undefined,
        freeFrom: families.map(({ name, returnYears }) => {
          const last = lastSeason.get(seen.id)?.get(name)
          return last === undefined ? 0 : Math.max(0, last + returnYears - asked.from)
        }),
        burden: families.map(({ name }) =>
          years.map((_, t) => {
            if (t < seen.taken.openFrom) return Number.POSITIVE_INFINITY
            const walnut = sensitive.includes(name) ? walnutM[t]! : 0
            return weights.juglone * walnut + weights.canopy * beneathM[t]! + weights.low_yield * poor * seen.lengthM
          }),
        ),
        sites: seen.sites
          .filter(({ side, forbidden }) => (fix ? fix.side === side : !forbidden))
          .map(
            (site): Site => ({
              side: site.side,
              earliest: earliestOf(seen, site),
              first: site.first,
              cost: site.stands
                ? years.map(() => renewalMoney(site.renewals, asked.labour_per_hour))
                : laid[n]!.costs.byBuilt,
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
  return {
    reading: { asked, problem, beds, weights, notes, sensitive, recipes: { system, instead: pulled }, usualM },
  }
}

/** The first year in which a place can be built: stock anywhere in the bed is lifted first, and what stands along it is over. */
const earliestOf = ({ lots, taken }: BedSeen, { stands, line }: SiteSeen): number =>
  stands ? 0 : Math.max(lots.length > 0 ? 1 : 0, openAlong(taken, line))

/** Rows that are asked for where none can be built within the plan's years, for what stands there. */
function fixedShut({ fix, years }: SitingAsked, beds: readonly BedSeen[]): PlanFault[] {
  return fix.flatMap(({ bed: id, side }) => {
    const bed = beds.find((one) => one.id === id)
    const site = bed?.sites.find((one) => one.side === side)
    if (!bed || !site || earliestOf(bed, site) < years) return []
    const what = standingWords(bed.taken, bed.lots).join('; ')
    return [{ field: 'fix', reason: `the row can’t be built in ${bed.name} within these years: ${what}` }]
  })
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
