import { quantileT } from '../studentT.ts'

/** What the farm knows of a crop before the season is over. */
export interface CropGround {
  readonly crop: string
  /** Ground of its plantings that count to the season. */
  readonly areaM2: number
  /** The part of it that is not cleared by the day; what is still to be set out is in it. */
  readonly standingM2: number
  readonly plantings: number
  readonly pickedKg: number
}

/**
 * What a crop gave in an earlier season, and on the same day of that season how much of it had been picked and how much
 * of its ground was not cleared yet (0–1 both).
 */
export interface EarlierSeason {
  readonly season: number
  readonly crop: string
  readonly kgPerM2: number
  readonly shareByDay: number
  readonly standingShare: number
}

/** A crop's usual yield, low to high, as its record tells it with its source. */
export interface UsualYield {
  readonly crop: string
  readonly lowKgPerM2: number
  readonly highKgPerM2: number
  readonly source: string | null
}

/** What is to be expected of a crop over the whole season, and what it rests on. */
export interface CropOutlook extends CropGround {
  readonly expectedKg: number | null
  /** Bounds; null where earlier seasons can't tell how much seasons differ, and where the crop is over. */
  readonly lowKg: number | null
  readonly highKg: number | null
  readonly rests: 'all cleared' | 'own seasons' | 'usual yield' | 'nothing'
  /** Earlier seasons that it rests on. */
  readonly seasons: readonly number[]
  readonly source: string | null
  /** Share that had been picked by this day in those seasons, on the whole; null where none was. */
  readonly usualShareByNow: number | null
}

export interface SeasonOutlook {
  readonly crops: readonly CropOutlook[]
  /** All that is picked so far, that of no crop with it. */
  readonly pickedKg: number
  /** What of it was told by bed or by spot and belongs to no crop that can be told. */
  readonly ofNoCropKg: number
  /**
   * Sums over the crops, and what is of none; of a crop of which nothing is known, what is picked. Bounds as if all had
   * a poor, or a good, season together. Null where nothing is known of any crop; bounds also where no crop has any.
   */
  readonly expectedKg: number | null
  readonly lowKg: number | null
  readonly highKg: number | null
  /** Crops that grow but of which nothing is known. */
  readonly unknown: readonly string[]
}

/** Chance with which a season lies outside the bounds. */
const OUTSIDE = 0.05

/**
 * What the season is to give, crop by crop. Of a crop that is cleared everywhere: what is picked. From own seasons: what
 * is picked and what they gave after this day, as Bornhuetter & Ferguson (1972, Proceedings of the Casualty Actuarial
 * Society 59) add what is still usual to what is told: the mean of kg/m² × (1 − share picked by the day) on this season's
 * ground, so much less as less of it still stands than did then. From two or more with the 95 % prediction interval of
 * one more season's such rest, mean ± t(n−1)·s·√(1 + 1/n), not below nothing (Hahn & Meeker 1991, Statistical Intervals,
 * 4.7); from one, or from rests that are all alike, without bounds. Else the crop's usual yield, its low and high as bounds and their middle between, none
 * of them below what is picked.
 */
export function seasonOutlook(
  grounds: readonly CropGround[],
  earlier: readonly EarlierSeason[],
  usual: readonly UsualYield[],
  ofNoCropKg: number,
): SeasonOutlook {
  const crops = grounds.map((ground): CropOutlook => {
    if (ground.standingM2 === 0) return { ...ground, ...NOTHING, expectedKg: ground.pickedKg, rests: 'all cleared' }
    const own = earlier.filter(({ crop }) => crop === ground.crop)
    if (own.length > 0) return fromOwnSeasons(ground, own)
    const book = usual.find(({ crop }) => crop === ground.crop)
    return book ? fromUsual(ground, book) : { ...ground, ...NOTHING }
  })
  const nothing = crops.every(({ rests }) => rests === 'nothing')
  const sum = (of: (crop: CropOutlook) => number | null): number =>
    crops.reduce((total, crop) => total + (of(crop) ?? crop.expectedKg ?? crop.pickedKg), ofNoCropKg)
  const bounds = crops.some(({ lowKg }) => lowKg !== null)
  return {
    crops,
    pickedKg: sum(({ pickedKg }) => pickedKg),
    ofNoCropKg,
    expectedKg: nothing ? null : sum(({ expectedKg }) => expectedKg),
    lowKg: bounds ? sum(({ lowKg }) => lowKg) : null,
    highKg: bounds ? sum(({ highKg }) => highKg) : null,
    unknown: crops.flatMap(({ crop, expectedKg }) => (expectedKg === null ? [crop] : [])),
  }
}

const NOTHING = {
  expectedKg: null,
  lowKg: null,
  highKg: null,
  rests: 'nothing',
  seasons: [],
  source: null,
  usualShareByNow: null,
} as const

function fromOwnSeasons(ground: CropGround, own: readonly EarlierSeason[]): CropOutlook {
  const n = own.length
  const standing = ground.standingM2 / ground.areaM2
  const rests = own.map(({ kgPerM2, shareByDay, standingShare }) => {
    const stillThere = standingShare > 0 ? Math.min(1, standing / standingShare) : 1
    return kgPerM2 * (1 - shareByDay) * stillThere
  })
  const mean = rests.reduce((sum, rest) => sum + rest / n, 0)
  const told = {
    ...ground,
    expectedKg: ground.pickedKg + mean * ground.areaM2,
    rests: 'own seasons',
    seasons: own.map(({ season }) => season),
    source: null,
    usualShareByNow: own.reduce((sum, { shareByDay }) => sum + shareByDay / n, 0),
  } as const
  const alike = rests.every((rest) => rest === rests[0])
  if (alike) return { ...told, lowKg: null, highKg: null }
  const s = Math.sqrt(rests.reduce((sum, rest) => sum + (rest - mean) ** 2, 0) / (n - 1))
  const half = quantileT(OUTSIDE, n - 1) * s * Math.sqrt(1 + 1 / n)
  const atRest = (rest: number): number => ground.pickedKg + Math.max(0, rest) * ground.areaM2
  return { ...told, lowKg: atRest(mean - half), highKg: atRest(mean + half) }
}

function fromUsual(ground: CropGround, { lowKgPerM2, highKgPerM2, source }: UsualYield): CropOutlook {
  const atLeastPicked = (kgPerM2: number): number => Math.max(ground.pickedKg, kgPerM2 * ground.areaM2)
  const expectedKg = atLeastPicked((lowKgPerM2 + highKgPerM2) / 2)
  const rests = { rests: 'usual yield', seasons: [], source, usualShareByNow: null } as const
  return { ...ground, ...rests, expectedKg, lowKg: atLeastPicked(lowKgPerM2), highKg: atLeastPicked(highKgPerM2) }
}
