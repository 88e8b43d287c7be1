import type { Ground } from '../growing/ground.ts'
import { growingSeason } from '../growing/growingSeason.ts'
import { readGround } from '../growing/readGround.ts'
import { lineLengthM, standsOf } from '../growing/stand.ts'
import { stays } from '../growing/standsInto.ts'
import type { LonLat, Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'
import { lastSeasons } from '../siting/bedHistory.ts'
import type { SitingBed, SitingProblem } from '../siting/problem.ts'
import { lotsStanding, standingRuns } from '../siting/standing.ts'
import { metresWithin, treesByYear } from '../siting/treesByYear.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { seasonSpan } from '../yield/season.ts'
import { type CropGroup, cropGroups } from './cropGroups.ts'
import { familyReturns } from './familyReturns.ts'
import { leftOut } from './leftOut.ts'
import type { RotationAsked, RotationFault } from './rotationFile.ts'
import type { RotationBed, RotationReading } from './rotationReading.ts'
import { ROTATION_WEIGHTS } from './weights.ts'

/** A permanent support this near to a bed's middle, along so much of it, serves what climbs there: half a broad bed. */
const SERVES_WITHIN_M = 0.8
const SERVES_SHARE = 0.8
/** Laid on every metre used, so that no more beds are taken than the crops fill. */
const USE_PER_M = 0.05
/** Beds that come to so much of what a group filled will do: lengths of beds don’t come out even. */
const ENOUGH = 0.95

/** Reads the farm for a rotation, as it stands on a day; faults where what is asked names what is not there. */
export async function readRotation(
  db: Database,
  asked: RotationAsked,
  on: string,
): Promise<{ readonly reading: RotationReading } | { readonly faults: readonly RotationFault[] }> {
  const ground = await readGround(db, null)
  const unknown = asked.leave.filter((bed) => !ground.beds.has(bed))
  if (unknown.length > 0)
    return { faults: unknown.map((bed) => ({ field: 'leave', reason: `there is no bed ${JSON.stringify(bed)}` })) }
  const month = ground.seasonStartMonth
  const from = asked.season + 1
  const start = seasonSpan(from, month).from
  const standing = new Set(
    (await db.rows<{ id: string }>('select id from beds where retired is null or retired > $1::date', [start])).map(
      ({ id }) => id,
    ),
  )
  const left = leftOut(ground, { asked: asked.leave, lots: await lotsStanding(db, start), from, on })
  const runs = (await standingRuns(db, start)).map(({ line }) => line)
  const beds = [...ground.beds.values()].flatMap((bed): (RotationBed & { middle: [Metres, Metres] })[] => {
    const middle = [bed.middle[0]!, bed.middle.at(-1)!] as [Metres, Metres]
    const lengthM = lineLengthM(middle)
    if (!standing.has(bed.id) || lengthM === 0) return []
    const supported = spansLength(spansWithin(middle, runs, SERVES_WITHIN_M)) >= SERVES_SHARE * lengthM
    const { id, name, field } = bed
    return [{ id, name, field, lengthM, supported, middle, left: left.get(id) ?? null }]
  })
  const groups = cropGroups(
    ground,
    asked.season,
    new Set(beds.filter(({ left: out }) => out?.until !== null).map(({ id }) => id)),
  )
  if (groups.length === 0)
    return { faults: [{ field: 'season', reason: `nothing that could be moved on grows in ${asked.season}` }] }
  const returns = familyReturns(ground, groups, asked)
  const years = Array.from({ length: asked.years }, (_, t) => from + t)
  const origin = (await readOrigin(db)) ?? ([0, 0] as LonLat)
  const trees = await treesByYear(
    db,
    years.map((year) => (origin[1] >= 0 ? `${year}-07-01` : `${year + 1}-01-01`)),
  )
  const yearsOf = new Map(returns.map(({ family, years: after }) => [family, after]))
  const last = lastSeasons(ground, month, from)
  const weight = (name: keyof typeof ROTATION_WEIGHTS) => asked.weights[name] ?? ROTATION_WEIGHTS[name].usual
  const burdenOf = (bed: (typeof beds)[number]): SitingBed['burden'] => {
    const walnutM = metresWithin(bed.middle, trees, 'reachM', asked.years)
    const beneathM = metresWithin(bed.middle, trees, 'canopyM', asked.years)
    return groups.map(({ sensitive, climbs }) =>
      years.map((year, t) => {
        if (bed.left && (bed.left.until === null || year < bed.left.until)) return Number.POSITIVE_INFINITY
        return (
          USE_PER_M * bed.lengthM +
          (sensitive ? weight('juglone') * walnutM[t]! : 0) +
          weight('canopy') * beneathM[t]! +
          (climbs && !bed.supported ? weight('support') * bed.lengthM : 0)
        )
      }),
    )
  }
  const problem: SitingProblem = {
    years: asked.years,
    families: groups.map((group) => ({
      name: group.name,
      needM: ENOUGH * group.needM,
      returnYears: longestWait(group, group, yearsOf),
    })),
    waits: groups.map((before) => groups.map((after) => longestWait(before, after, yearsOf))),
    insteadPerM: 0,
    usePerM: 0,
    budget: null,
    beds: beds.map((bed) => ({
      id: bed.id,
      lengthM: bed.lengthM,
      rows: 1,
      freeFrom: groups.map(({ families }) =>
        families.reduce((most, family) => {
          const stood = last.get(bed.id)?.get(family)
          return stood === undefined ? most : Math.max(most, stood + yearsOf.get(family)! - from)
        }, 0),
      ),
      burden: burdenOf(bed),
      sites: [],
      fixed: false,
    })),
  }
  return {
    reading: {
      asked,
      problem,
      groups,
      returns,
      beds: beds.map(({ middle: _, ...bed }) => bed),
      planned: plannedIn(ground, beds, years, on),
    },
  }
}

/** Years before the one may follow the other in a bed: the longest return of a family that both hold; 0 where they share none. */
function longestWait(before: CropGroup, after: CropGroup, yearsOf: ReadonlyMap<string, number>): number {
  return after.families.reduce(
    (most, family) => (before.families.includes(family) ? Math.max(most, yearsOf.get(family)!) : most),
    0,
  )
}

function plannedIn(
  ground: Ground,
  beds: readonly RotationBed[],
  years: readonly number[],
  on: string,
): RotationReading['planned'] {
  const open = new Set(beds.filter(({ left }) => left?.until !== null).map(({ id }) => id))
  return standsOf(ground).flatMap((stand) => {
    const { id, set_out: setOut, cleared } = stand.planting
    const season = growingSeason(setOut, cleared, ground.seasonStartMonth)
    return setOut > on && !stays(stand) && open.has(stand.bed) && years.includes(season)
      ? [{ id, bed: stand.bed, season }]
      : []
  })
}
