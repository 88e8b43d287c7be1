import type { KnownYields, OwnYield } from './cropLoads.ts'
import { GRAVITY } from './load/wire.ts'
import { type HeldPlanting, mostAtOnce, type Run } from './run.ts'

/** Design load of a post-and-wire trellis, 7 lb a foot (Sumner, Univ. of Georgia): where no crop tells another. */
export const DESIGN_LOAD_N_PER_M = (7 * 4.4482216152605) / 0.3048

/** What an expected load rests on, the surest first. */
export const LOAD_GROUNDS = ['variety', 'crop', 'usual yield', 'design load'] as const
export type LoadGround = (typeof LOAD_GROUNDS)[number]

/**
 * What a run must bear on each metre: all that its plantings are expected to give in a season, as if it hung at once,
 * which is on the safe side; else the published design load. A planting gives what its variety gave on this farm, else its
 * crop: a plant's worth for each of its plants along the run where both are counted, else a row metre's worth for each
 * metre held; else the high end of what is usual of its crop, on the ground beside its row. `from` is the least sure of
 * what its plantings rest on.
 */
export function expectedLoad(
  { held, lengthM }: Pick<Run, 'held' | 'lengthM'>,
  yields: KnownYields,
): { readonly loadNPerM: number; readonly from: LoadGround } {
  const expected = new Map(held.map((one) => [one, expectedKg(one, yields)]))
  if (held.length === 0 || held.some((one) => expected.get(one) === null))
    return { loadNPerM: DESIGN_LOAD_N_PER_M, from: 'design load' }
  const kg = mostAtOnce(held, (one) => expected.get(one)!.kg)
  const from = [...expected.values()].map((one) => LOAD_GROUNDS.indexOf(one!.from))
  return { loadNPerM: (kg * GRAVITY) / lengthM, from: LOAD_GROUNDS[Math.max(...from)]! }
}

/** What the held part of a planting is expected to give in a season, kg; null where nothing tells. */
function expectedKg(one: HeldPlanting, { own, usual }: KnownYields): { kg: number; from: LoadGround } | null {
  const ofCrop = own.filter(({ crop }) => crop === one.crop)
  const ofVariety = ofCrop.filter(({ variety }) => variety === one.variety)
  for (const [list, from] of [
    [ofVariety, 'variety'],
    [ofCrop, 'crop'],
  ] as const) {
    const kg = givenBy(one, list)
    if (kg !== null) return { kg, from }
  }
  const kgPerM2 = usual.find(({ crop }) => crop === one.crop)?.kgPerM2
  if (kgPerM2 === undefined || one.groundWidthM === null) return null
  return { kg: kgPerM2 * one.groundWidthM * one.heldM, from: 'usual yield' }
}

function givenBy({ plants, heldM }: HeldPlanting, own: readonly OwnYield[]): number | null {
  if (own.length === 0) return null
  const sum = (of: (one: OwnYield) => number) => own.reduce((total, one) => total + of(one), 0)
  const counted = sum((one) => one.counted.plants)
  if (plants !== null && counted > 0) return (sum((one) => one.counted.kg) / counted) * plants
  return (sum(({ kg }) => kg) / sum(({ rowM }) => rowM)) * heldM
}
