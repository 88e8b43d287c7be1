import type { Planting } from '../../../geo/model/plantings.ts'
import { DAYS, type RandomGround } from './randomGround.ts'

/** A stretch of a row that is a centimetre long; `between` is the ground of a bed that no row runs over. */
type Lane = { readonly bed: string; readonly row: string | 'between'; readonly fromCm: number; readonly toCm: number }

const START_MS = Date.UTC(2022, 0, 1)
export const dayOf = (n: number) => new Date(START_MS + n * 86_400_000).toISOString().slice(0, 10)

/** True on each day that a planting stands, by counting through the days one by one. */
const standsOn = ({ set_out, cleared }: Planting, day: string) => day >= set_out && (cleared === null || day < cleared)

/** The centimetres of a lane that a planting covers, as places along its bed, by going through them one by one. */
function covers(farm: RandomGround, planting: Planting, lane: Lane): boolean[] {
  const row = farm.rows.find(({ id }) => id === planting.row)
  const bed = row?.bed ?? planting.bed
  const [from, to] = [planting.from_m ?? 0, planting.to_m ?? Number.POSITIVE_INFINITY]
  return Array.from({ length: lane.toCm - lane.fromCm }, (_, i) => {
    if (bed !== lane.bed || (row && row.id !== lane.row)) return false
    const alongCm = lane.fromCm + i
    const toldCm = !row ? alongCm : row.back ? row.startCm + row.lengthCm - 1 - alongCm : alongCm - row.startCm
    const middleM = (toldCm + 0.5) / 100
    return middleM > from && middleM < to
  })
}

export interface Seen {
  /** By two plantings, smaller id first: the first day on which they stood on at least two centimetres together. */
  readonly together: ReadonlyMap<string, string>
  /** By planting: those that stood on at least two centimetres of its ground on some day before it was set out. */
  readonly before: ReadonlyMap<string, ReadonlySet<string>>
  /** By planting: the days that it stood on. */
  readonly days: ReadonlyMap<string, readonly string[]>
}

/** Walks a farm day by day and centimetre by centimetre, and writes down what is met. */
export function walk(farm: RandomGround): Seen {
  const { plantings } = farm.ground
  const lanes: Lane[] = [
    ...farm.rows.map(({ id, bed, startCm, lengthCm }) => ({ bed, row: id, fromCm: startCm, toCm: startCm + lengthCm })),
    ...[...farm.bedCm].map(([bed, toCm]) => ({ bed, row: 'between' as const, fromCm: 0, toCm })),
  ]
  const days = new Map(plantings.map(({ id }) => [id, [] as string[]]))
  const together = new Map<string, string>()
  const before = new Map(plantings.map(({ id }) => [id, new Set<string>()]))
  for (let n = 0; n < DAYS; n++) {
    const day = dayOf(n)
    for (const planting of plantings) if (standsOn(planting, day)) days.get(planting.id)!.push(day)
  }
  for (const lane of lanes) {
    const covered = new Map(plantings.map((planting) => [planting.id, covers(farm, planting, lane)]))
    const meet = (a: string, b: string) => {
      let cm = 0
      for (let i = 0; i < lane.toCm - lane.fromCm; i++) if (covered.get(a)![i] && covered.get(b)![i]) cm += 1
      return cm >= 2
    }
    const met = new Map<string, boolean>()
    const meeting = (a: string, b: string) => {
      const key = `${a}|${b}`
      if (!met.has(key)) met.set(key, meet(a, b))
      return met.get(key)!
    }
    const stood = new Set<string>()
    for (let n = 0; n < DAYS; n++) {
      const day = dayOf(n)
      const here = plantings.filter((planting) => standsOn(planting, day)).map(({ id }) => id)
      for (const planting of plantings)
        if (planting.set_out === day)
          for (const earlier of stood)
            if (earlier !== planting.id && meeting(planting.id, earlier)) before.get(planting.id)!.add(earlier)
      for (const a of here)
        for (const b of here) if (a < b && !together.has(`${a}|${b}`) && meeting(a, b)) together.set(`${a}|${b}`, day)
      for (const id of here) stood.add(id)
    }
  }
  return { together: firstDays(farm, together), before, days }
}

/** Lanes are walked one after another, so the first day is looked for again among the days on which both stood. */
function firstDays(farm: RandomGround, together: ReadonlyMap<string, string>): Map<string, string> {
  const byId = new Map(farm.ground.plantings.map((planting) => [planting.id, planting]))
  return new Map(
    [...together.keys()].map((key) => {
      const [a, b] = key.split('|').map((id) => byId.get(id!)!)
      for (let n = 0; n < DAYS; n++) if (standsOn(a!, dayOf(n)) && standsOn(b!, dayOf(n))) return [key, dayOf(n)]
      throw new Error(`${key} never stood together`)
    }),
  )
}
