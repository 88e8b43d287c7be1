import type { Database } from '../../store/database.ts'
import { cropsOf, type OfCrops } from '../ofCrops.ts'
import { readYieldInputs } from '../readYieldInput.ts'
import { seasonsAsked, USUAL } from '../reckonYield.ts'
import { sameDayIn, seasonOf, seasonSpan } from '../season.ts'
import type { YieldInput } from '../yieldInput.ts'
import { seasonsFigures, type YieldFigures } from '../yieldReport.ts'
import { type BedSeasons, bedSeasons } from './bedSeasons.ts'
import { type CropGround, type EarlierSeason, type SeasonOutlook, seasonOutlook } from './outlook.ts'
import { type PickedByCrop, pickedByCrop } from './pickedByCrop.ts'
import { readLoosePicks, readPicked, readUsualYields, seasonsPicked } from './readPicking.ts'
import { type Stability, stretchStability, type ZoneStability, zoneStability } from './stability.ts'

/** Season against season. */
export interface ReckonedSeasons {
  /** Those in which something was picked, up to the last asked, oldest first. */
  readonly seasons: readonly number[]
  readonly beds: readonly BedSeasons[]
  /** Of each stretch, in the order of `together.stretches`. */
  readonly stretches: readonly Stability[]
  /** Of each zone of the surface asked, in its order. */
  readonly zones: readonly ZoneStability[]
  /** Of the season that holds the day looked at. */
  readonly outlook: { readonly season: number; readonly on: string } & SeasonOutlook
  /** The figures of the seasons asked, taken together. */
  readonly together: YieldFigures
}

/** What is asked: the seasons of the surface whose zones are told, and the day up to which the season is looked at. */
export interface SeasonsAsked {
  readonly season: number
  readonly seasons: readonly number[]
  readonly of: OfCrops | null
  readonly on: string
}

/** More seasons than this are not looked back on. */
const MOST_SEASONS = 20

/** Reckons what each bed gave season by season, where cold ground stays cold, and what the season is to give. */
export async function reckonSeasons(
  db: Database,
  { season, seasons: named, of, on }: SeasonsAsked,
): Promise<ReckonedSeasons> {
  const asked = seasonsAsked(season, named)
  const picked = (await seasonsPicked(db)).filter((one) => one <= asked.at(-1)!)
  const [farm] = await db.rows<{ month: number }>('select season_start_month as month from farm')
  const month = farm?.month ?? 1
  const now = seasonOf(on, month)
  const looked = [...new Set([...picked.slice(-MOST_SEASONS), ...asked, now])].sort((a, b) => a - b)
  const inputs = await readYieldInputs(db, looked)
  const crops = of === null ? null : await cropsOf(db, of)
  const inputOf = (one: number): YieldInput => inputs[looked.indexOf(one)]!
  const shown = looked.filter((one) => picked.includes(one))
  const figures = shown.map((one) => seasonsFigures([inputOf(one)], USUAL, crops))
  const together = seasonsFigures(asked.map(inputOf), USUAL, crops)
  const standings = figures.map((one) => ({ season: one.season, standings: one.hotAndCold.stretches }))
  const current = seasonsFigures([inputOf(now)], USUAL, crops)
  const { from } = seasonSpan(now, month)
  const [told, loose] = [await readPicked(db, from, on), await readLoosePicks(db, from, on)]
  const picksOf = ({ season: one, ground }: YieldFigures): PickedByCrop =>
    pickedByCrop(
      inputOf(one),
      ground,
      told.filter((sum) => sum.season === one),
      loose.filter((pick) => pick.season === one),
    )
  const earlier = figures
    .filter((one) => one.season < now)
    .flatMap((one) => earlierSeasons(one, picksOf(one), sameDayIn(one.season, on, month)))
  const picks = picksOf(current)
  const usual = await readUsualYields(db)
  const ofNoCropKg = crops === null ? picks.ofNoCrop.byDayKg : 0
  const outlook = seasonOutlook(groundsOf(current, picks, on), earlier, usual, ofNoCropKg)
  return {
    seasons: shown,
    beds: bedSeasons(figures),
    stretches:
      standings.length === 0
        ? together.stretches.map(() => ({ told: 0, cold: 0, hot: 0 }))
        : stretchStability(
            standings.map((one) => one.standings),
            USUAL.alpha,
          ),
    zones: together.zones.map((zone) => zoneStability(zone, together.stretches, standings, USUAL.alpha)),
    outlook: { season: now, on, ...outlook },
    together,
  }
}

/** Ground of a season's crops, with what of it is not cleared on a day, and what was picked of them by it. */
function groundsOf({ strips }: YieldFigures, picks: PickedByCrop, on: string): CropGround[] {
  const grounds = new Map<string, Omit<CropGround, 'crop' | 'pickedKg'>>()
  for (const { planting, areaM2 } of strips.flat()) {
    const sum = grounds.get(planting.crop) ?? { areaM2: 0, standingM2: 0, plantings: 0 }
    const standing = planting.cleared === null || planting.cleared > on
    grounds.set(planting.crop, {
      areaM2: sum.areaM2 + areaM2,
      standingM2: sum.standingM2 + (standing ? areaM2 : 0),
      plantings: sum.plantings + 1,
    })
  }
  return [...grounds].map(([crop, ground]) => ({
    crop,
    ...ground,
    pickedKg: picks.crops.get(crop)?.byDayKg ?? 0,
  }))
}

/** What crops gave in an earlier season, of those picked in it; `on` is the same day of that season. */
function earlierSeasons(figures: YieldFigures, picks: PickedByCrop, on: string): EarlierSeason[] {
  return groundsOf(figures, picks, on).flatMap(({ crop, areaM2, standingM2 }) => {
    const { kg, byDayKg } = picks.crops.get(crop) ?? { kg: 0, byDayKg: 0 }
    if (!(kg > 0)) return []
    const { season } = figures
    return [{ season, crop, kgPerM2: kg / areaM2, shareByDay: byDayKg / kg, standingShare: standingM2 / areaM2 }]
  })
}
