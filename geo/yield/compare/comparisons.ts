import { benjaminiHochberg } from '../benjaminiHochberg.ts'
import { type RateDifference, rate, rateDifference, type Unit } from './rateDifference.ts'

/** What groups are made by. */
export type ComparedBy = 'system' | 'variety' | 'side'
/** What the mass is told over. */
export type ComparedPer = 'row metre' | 'plant'

/** A planting in one season, as it is compared. */
export interface ComparedPlanting {
  readonly season: number
  readonly bed: string
  readonly crop: string
  readonly cropName: string
  readonly kg: number
  readonly rowM: number
  readonly plants: number | null
  /** Its group in each comparison; null where it has none. */
  readonly groups: { readonly [B in ComparedBy]: { readonly id: string; readonly name: string } | null }
}

export interface ComparedGroup {
  readonly id: string
  readonly name: string
  readonly plantings: number
  /** Beds, each counted once a season. */
  readonly beds: number
  readonly rowM: number
  /** All its kg over all its row metres, or over all its plants. */
  readonly rate: number
}

/** Two groups of one crop against each other, the one with the higher rate first. */
export interface Comparison {
  readonly by: ComparedBy
  readonly per: ComparedPer
  readonly crop: string
  readonly cropName: string
  readonly a: ComparedGroup
  readonly b: ComparedGroup
  /** Rate of a less rate of b; within beds where paired. Null where there is too little to tell. */
  readonly told: (RateDifference & { readonly q: number }) | null
  readonly verdict: 'differ' | 'no difference that is sure' | 'too little to tell'
}

/** The rule that verdicts follow, in plain words. */
export const COMPARISON_RULE =
  'Seasons are first brought to the crop’s common level, so that a good year proves nothing. Set against each other within beds where 6 or more beds carried both; else over all beds where each had 5 or more; fewer are too little to tell. They are said to differ where the 95 % interval leaves out 0 and the false discovery rate over all that is compared is at most 5 %.'

const BYS: readonly ComparedBy[] = ['system', 'variety', 'side']
const MOST_GROUPS = 8
const ALPHA = 0.05

/**
 * System against system, variety against variety, side against side, each within one crop: kg per row metre, and per
 * plant where all plantings of both tell how many there were. A bed counts once a season for a group, however many
 * plantings it was picked as. The same seed gives the same answer.
 */
export function comparisons(plantings: readonly ComparedPlanting[], seed: number): Comparison[] {
  const told = crops(plantings)
    .map(levelled)
    .flatMap((ofCrop) =>
      BYS.flatMap((by) => {
        const groups = groupsOf(ofCrop, by)
        return groups.flatMap((one, k) => groups.slice(k + 1).flatMap((other) => pair(by, one, other, seed)))
      }),
    )
  const tests = told.flatMap(({ told: one }, k) => (one === null ? [] : [{ k, p: one.p }]))
  const q = new Map(benjaminiHochberg(tests.map(({ p }) => p)).map((value, at) => [tests[at]!.k, value]))
  return told.map((one, k): Comparison => {
    if (one.told === null) return { ...one, told: null, verdict: 'too little to tell' }
    const { low, high } = one.told
    const sure = low !== null && high !== null && low * high > 0 && q.get(k)! <= ALPHA
    return { ...one, told: { ...one.told, q: q.get(k)! }, verdict: sure ? 'differ' : 'no difference that is sure' }
  })
}

type Told = Omit<Comparison, 'told' | 'verdict'> & { readonly told: RateDifference | null }
type Group = { readonly id: string; readonly name: string; readonly members: readonly ComparedPlanting[] }

function pair(by: ComparedBy, one: Group, other: Group, seed: number): Told[] {
  const [first] = one.members
  const pers: ComparedPer[] = [...one.members, ...other.members].every(({ plants }) => plants !== null && plants > 0)
    ? ['row metre', 'plant']
    : ['row metre']
  return pers.map((per) => {
    const units = [one, other].map((group) => unitsOf(group.members, per))
    const [a, b] = rate(units[0]!) >= rate(units[1]!) ? [0, 1] : [1, 0]
    const groups = [one, other].map((group, k) => groupTold(group, units[k]!))
    const told = rateDifference(units[a]!, units[b]!, seed)
    return { by, per, crop: first!.crop, cropName: first!.cropName, a: groups[a]!, b: groups[b]!, told }
  })
}

function groupTold({ id, name, members }: Group, units: readonly Unit[]): ComparedGroup {
  const rowM = members.reduce((sum, planting) => sum + planting.rowM, 0)
  return { id, name, plantings: members.length, beds: units.length, rowM, rate: rate(units) }
}

function unitsOf(members: readonly ComparedPlanting[], per: ComparedPer): Unit[] {
  const units = new Map<string, Unit>()
  for (const { season, bed, kg, rowM, plants } of members) {
    const place = `${season} ${bed}`
    const { kg: kgBefore, size } = units.get(place) ?? { kg: 0, size: 0 }
    units.set(place, { place, kg: kgBefore + kg, size: size + (per === 'plant' ? plants! : rowM) })
  }
  return [...units.values()]
}

function crops(plantings: readonly ComparedPlanting[]): ComparedPlanting[][] {
  const lists = new Map<string, ComparedPlanting[]>()
  for (const one of plantings) lists.set(one.crop, [...(lists.get(one.crop) ?? []), one])
  return [...lists.values()]
}

/** One crop's plantings with each season's mass brought to what the crop gave a row metre over all of them. */
function levelled(plantings: readonly ComparedPlanting[]): ComparedPlanting[] {
  const perM = (list: readonly ComparedPlanting[]): number =>
    list.reduce((sum, { kg }) => sum + kg, 0) / list.reduce((sum, { rowM }) => sum + rowM, 0)
  const all = perM(plantings)
  const seasons = new Map(plantings.map(({ season }) => [season, 0]))
  for (const season of seasons.keys()) seasons.set(season, perM(plantings.filter((one) => one.season === season)))
  return plantings.map((one) => {
    const ofSeason = seasons.get(one.season)!
    return { ...one, kg: ofSeason > 0 ? (one.kg * all) / ofSeason : one.kg }
  })
}

/** Groups of one crop's plantings, those with most of them, at most eight. */
function groupsOf(plantings: readonly ComparedPlanting[], by: ComparedBy): Group[] {
  const groups = new Map<string, { id: string; name: string; members: ComparedPlanting[] }>()
  for (const planting of plantings) {
    const group = planting.groups[by]
    if (group === null) continue
    const found = groups.get(group.id) ?? { ...group, members: [] }
    found.members.push(planting)
    groups.set(group.id, found)
  }
  return [...groups.values()].sort((a, b) => b.members.length - a.members.length).slice(0, MOST_GROUPS)
}
