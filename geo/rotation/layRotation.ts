import { alongOf, type Lane, lanesOf } from '../growing/bedHistory.ts'
import { addYears } from '../growing/days.ts'
import type { Ground } from '../growing/ground.ts'
import { plantsAt } from '../growing/spacing.ts'
import { lineLengthM, type Stand } from '../growing/stand.ts'
import type { Planting } from '../model/plantings.ts'
import { standsIn } from './cropGroups.ts'

/** A planting of the season that is carried on, as it would be in a season of the rotation; `why` some of it can't be, where it can't. */
export interface Laid {
  readonly of: string
  readonly season: number
  readonly bed: string
  readonly planting: Omit<Planting, 'id'> | null
  readonly why: string | null
}

/** What of a rotation says which group stands where: an answer holds it. */
export interface RotationBeds {
  readonly season: number
  readonly groups: readonly { readonly name: string; readonly from_beds: readonly string[] }[]
  readonly beds: readonly { readonly bed: string; readonly years: Readonly<Record<string, string>> }[]
}

/** A rest of a planting shorter than this is not planted in another bed. */
const SHORTEST_M = 0.5
/** Two lengths that differ by less are the same. */
const SAME_M = 0.05

/**
 * Lays the plantings of the season into the beds that a rotation gives their groups, for some seasons of it. What a group
 * fills is laid bed after bed, as if its beds, the farm's order, were one long bed: a planting that runs over the end of a
 * bed goes on in the next, with its part of the plants. Rows keep their side.
 */
export function layRotation(
  ground: Ground,
  { season, groups, beds }: RotationBeds,
  seasons: readonly number[],
): Laid[] {
  const stands = standsIn(ground, season)
  return seasons.flatMap((year) =>
    groups.flatMap(({ name, from_beds: from }) => {
      const targets = beds.filter(({ years }) => years[String(year)] === name).map(({ bed }) => bed)
      return layGroup(ground, stands, from, targets, year, year - season)
    }),
  )
}

function layGroup(
  ground: Ground,
  stands: ReadonlyMap<string, readonly Stand[]>,
  from: readonly string[],
  to: readonly string[],
  season: number,
  later: number,
): Laid[] {
  const lengthOf = (bed: string) => lineLengthM(ground.beds.get(bed)!.middle)
  const ends = (beds: readonly string[]) => {
    let sum = 0
    return beds.map((bed) => {
      const start = sum
      sum += lengthOf(bed)
      return { bed, start, end: sum }
    })
  }
  const [sources, targets] = [ends(from), ends(to)]
  const lanes = new Map(targets.map(({ bed }) => [bed, lanesOf(ground, ground.beds.get(bed)!)]))
  return sources.flatMap(({ bed, start }) => {
    const own = lanesOf(ground, ground.beds.get(bed)!)
    return (stands.get(bed) ?? []).flatMap((stand): Laid[] => {
      const lane = own.findIndex(({ row }) => row === stand.row)
      const told = (one: Omit<Laid, 'of' | 'season'>): Laid => ({ of: stand.planting.id, season, ...one })
      const [a, b] = [start + stand.along[0], start + stand.along[1]]
      const pieces = targets.flatMap((target): Laid[] => {
        const part = [Math.max(a, target.start), Math.min(b, target.end)] as const
        const wholly = part[1] - part[0] >= b - a - SAME_M
        if (part[1] - part[0] < (wholly ? SAME_M : SHORTEST_M)) return []
        const there = laneLike(own[lane]!, lane, lanes.get(target.bed)!)
        if (!there)
          return [
            told({ bed: target.bed, planting: null, why: `bed ${ground.beds.get(target.bed)!.name} has no rows` }),
          ]
        const along = [part[0] - target.start, part[1] - target.start] as const
        const planting = pieceOf(stand, there, target.bed, along, later)
        return planting ? [told({ bed: target.bed, planting, why: null })] : []
      })
      const end = targets.at(-1)?.end ?? 0
      const lost = Math.max(0, b - Math.max(a, end))
      const short = lost >= SHORTEST_M ? [told({ bed, planting: null, why: `${lost.toFixed(1)} m find no bed` })] : []
      return [...pieces, ...short]
    })
  })
}

/** The row of the same side, else that in the same place across; the whole width for what took the whole width. */
function laneLike(lane: Lane, at: number, lanes: readonly Lane[]): Lane | null {
  if (lane.row === null) return lanes.find(({ row }) => row === null) ?? null
  const rows = lanes.filter(({ row }) => row !== null)
  return rows.find(({ name }) => name === lane.name) ?? rows[Math.min(at, rows.length - 1)] ?? null
}

function pieceOf(
  { planting, span }: Stand,
  lane: Lane,
  bed: string,
  along: readonly [number, number],
  later: number,
): Omit<Planting, 'id'> | null {
  // Metres along the bed to metres along the lane: the way back of alongOf.
  const [start] = alongOf(lane, [0, 0])
  const told = lane.back ? [start - along[1], start - along[0]] : [along[0] - start, along[1] - start]
  const [from, to] = [Math.max(0, told[0]!), Math.min(lane.lengthM, told[1]!)]
  if (to - from < SAME_M) return null
  const whole = from < SAME_M && to > lane.lengthM - SAME_M
  const { id: _, plants, spacing_m: spacing, ...rest } = planting
  const [lengthM, wasM] = [to - from, span[1] - span[0]]
  const same = Math.abs(lengthM - wasM) < SAME_M
  return {
    ...rest,
    spacing_m: spacing,
    row: lane.row,
    bed: lane.row === null ? bed : null,
    from_m: whole ? null : cents(from),
    to_m: whole ? null : cents(to),
    plants:
      plants === null || same
        ? plants
        : spacing === null
          ? Math.max(1, Math.floor((plants * lengthM) / wasM))
          : plantsAt(lengthM, spacing),
    set_out: addYears(planting.set_out, later),
    cleared: planting.cleared && addYears(planting.cleared, later),
    extra: {},
  }
}

const cents = (m: number) => Math.floor(m * 100 + 1e-6) / 100
