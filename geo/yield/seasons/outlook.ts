import { quantileT } from '../studentT.ts'

/** What the farm knows of a crop before the season is over. */
export interface CropGround {
  readonly crop: string
  /** Ground of its plantings that count to the season. */
  readonly areaM2: number
  readonly plantings: number
  readonly pickedKg: number
}

/** What a crop gave in an earlier season, and how much of it had been picked by the same day of that season (0–1). */
export interface EarlierSeason {
  readonly season: number
  readonly crop: string
  readonly kgPerM2: number
  readonly shareByDay: number
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
  /** Bounds; null where one earlier season alone can't tell how much seasons differ. */
  readonly lowKg: number | null
  readonly highKg: number | null
  readonly rests: 'own seasons' | 'usual yield' | 'nothing'
  /** Earlier seasons that it rests on. */
  readonly seasons: readonly number[]
  readonly source: string | null
  /** Share that had been picked by this day in those seasons, on the whole; null where none was. */
  readonly usualShareByNow: number | null
}

export interface SeasonOutlook {
  readonly crops: readonly CropOutlook[]
  readonly pickedKg: number
  /** Sums over the crops of which something is to be expected; bounds as if all had a poor, or a good, season together. */
  readonly expectedKg: number | null
  readonly lowKg: number | null
  readonly highKg: number | null
  /** Crops that grow but of which nothing is known. */
  readonly unknown: readonly string[]
}

/** Chance with which a season lies outside the bounds. */
const OUTSIDE = 0.05

/**
 * What the season is to give, crop by crop. From two own seasons or more: the mean of their kg/m² on this season's
 * ground, with the 95 % prediction interval of one more season, mean ± t(n−1)·s·√(1 + 1/n), not below what is picked
 * already (Hahn & Meeker 1991, Statistical Intervals, 4.7). From one own season: its kg/m², without bounds. Else the
 * crop's usual yield, its low and high as bounds and their middle between.
 */
export function seasonOutlook(
  grounds: readonly CropGround[],
  earlier: readonly EarlierSeason[],
  usual: readonly UsualYield[],
): SeasonOutlook {
  const crops = grounds.map((ground) => {
    const own = earlier.filter(({ crop }) => crop === ground.crop)
    if (own.length > 0) return fromOwnSeasons(ground, own)
    const book = usual.find(({ crop }) => crop === ground.crop)
    return book ? fromUsual(ground, book) : { ...ground, ...NOTHING }
  })
  const known = crops.filter(({ expectedKg }) => expectedKg !== null)
  const sum = (of: (crop: CropOutlook) => number | null): number | null =>
    known.length === 0 ? null : known.reduce((total, crop) => total + (of(crop) ?? crop.expectedKg!), 0)
  return {
    crops,
    pickedKg: crops.reduce((total, { pickedKg }) => total + pickedKg, 0),
    expectedKg: sum(({ expectedKg }) => expectedKg),
    lowKg: sum(({ lowKg }) => lowKg),
    highKg: sum(({ highKg }) => highKg),
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
  const mean = own.reduce((sum, { kgPerM2 }) => sum + kgPerM2 / n, 0)
  const share = own.reduce((sum, { shareByDay }) => sum + shareByDay / n, 0)
  const rests = { rests: 'own seasons', seasons: own.map(({ season }) => season), source: null } as const
  const expectedKg = Math.max(ground.pickedKg, mean * ground.areaM2)
  const told = { ...ground, ...rests, usualShareByNow: share, expectedKg }
  if (n === 1) return { ...told, lowKg: null, highKg: null }
  const s = Math.sqrt(own.reduce((sum, { kgPerM2 }) => sum + (kgPerM2 - mean) ** 2, 0) / (n - 1))
  const half = quantileT(OUTSIDE, n - 1) * s * Math.sqrt(1 + 1 / n)
  const lowKg = Math.max(0, ground.pickedKg, (mean - half) * ground.areaM2)
  return { ...told, lowKg, highKg: Math.max(lowKg, (mean + half) * ground.areaM2) }
}

function fromUsual(ground: CropGround, { lowKgPerM2, highKgPerM2, source }: UsualYield): CropOutlook {
  const [lowKg, highKg] = [lowKgPerM2 * ground.areaM2, highKgPerM2 * ground.areaM2]
  const rests = { rests: 'usual yield', seasons: [], source, usualShareByNow: null } as const
  return { ...ground, ...rests, expectedKg: (lowKg + highKg) / 2, lowKg, highKg }
}
