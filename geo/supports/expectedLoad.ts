import type { KnownYields, OwnYield } from './cropLoads.ts'
import { GRAVITY } from './load/wire.ts'
import { type HeldPlanting, type Run, standingAtOnce } from './run.ts'
import { vinesPerFruit } from './vines.ts'

/** Design load of a post-and-wire trellis, 7 lb a foot (Sumner, Univ. of Georgia): where no crop tells another. */
export const DESIGN_LOAD_N_PER_M = (7 * 4.4482216152605) / 0.3048

/** What an expected load rests on, the surest first. */
export const LOAD_GROUNDS = ['variety', 'crop', 'usual yield', 'own picks', 'design load'] as const
export type LoadGround = (typeof LOAD_GROUNDS)[number]

/** What a run is expected to bear on each metre; fruit and vines by themselves where plantings tell them. */
export interface ExpectedLoad {
  readonly loadNPerM: number
  readonly fruitNPerM: number | null
  readonly vinesNPerM: number | null
  readonly from: LoadGround
}

/**
 * What a run must bear on each metre: all the fruit that its plantings are expected to give in a season, as if it hung at
 * once, and their vines fully grown; both on the safe side. Vines weigh so much for each kg of fruit, as told or by
 * family. A planting gives what cleared plantings of its variety gave on this farm, else those of its crop: a plant's
 * worth for each of its plants along the run where both are counted, else a row metre's worth for each metre held; else
 * the high end of what is usual of its crop, on the ground beside its row. Where its own picks on record are more than
 * that, they count. Where nothing tells of one of its plantings the run bears the published design load, vines and fruit
 * together, or what the others are expected to weigh where that is more. A mean of few cleared plantings that failed, or
 * whose picks were not all noted, is not on the safe side. `from` is the least sure of what its plantings rest on.
 */
export function expectedLoad(
  { held, lengthM }: Pick<Run, 'held' | 'lengthM'>,
  yields: KnownYields,
  toldVinesPerFruit: number | null,
): ExpectedLoad {
  const expected = new Map(held.map((one) => [one, expectedKg(one, yields)]))
  const nPerM = (kg: number) => (kg * GRAVITY) / lengthM
  const sum = (of: readonly HeldPlanting[]) => {
    const fruit = of.map((one) => ({ ...one, kg: expected.get(one)?.kg ?? one.pickedKg }))
    const vinesKg = fruit.map(({ kg, family }) => kg * vinesPerFruit(family, toldVinesPerFruit))
    const [fruitNPerM, vinesNPerM] = [nPerM(total(fruit.map(({ kg }) => kg))), nPerM(total(vinesKg))]
    return { loadNPerM: fruitNPerM + vinesNPerM, fruitNPerM, vinesNPerM }
  }
  const most = standingAtOnce(held)
    .map(sum)
    .reduce((a, b) => (b.loadNPerM > a.loadNPerM ? b : a), sum([]))
  if (held.length === 0 || held.some((one) => expected.get(one) === null))
    return {
      loadNPerM: Math.max(DESIGN_LOAD_N_PER_M, most.loadNPerM),
      fruitNPerM: null,
      vinesNPerM: null,
      from: 'design load',
    }
  const from = [...expected.values()].map((one) => LOAD_GROUNDS.indexOf(one!.from))
  return { ...most, from: LOAD_GROUNDS[Math.max(...from)]! }
}

/** Fruit that the held part of a planting is expected to give in a season, kg; null where nothing tells. */
function expectedKg(one: HeldPlanting, yields: KnownYields): { kg: number; from: LoadGround } | null {
  const usual = usualKg(one, yields)
  // A planting that is among those that the mean was made of is not told apart from it by rounding.
  return usual && one.pickedKg > usual.kg * (1 + 1e-9) ? { kg: one.pickedKg, from: 'own picks' } : usual
}

function usualKg(one: HeldPlanting, { own, usual }: KnownYields): { kg: number; from: LoadGround } | null {
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
  const sum = (of: (one: OwnYield) => number) => total(own.map(of))
  const counted = sum((one) => one.counted.plants)
  if (plants !== null && counted > 0) return (sum((one) => one.counted.kg) / counted) * plants
  return (sum(({ kg }) => kg) / sum(({ rowM }) => rowM)) * heldM
}

const total = (of: readonly number[]) => of.reduce((sum, one) => sum + one, 0)
