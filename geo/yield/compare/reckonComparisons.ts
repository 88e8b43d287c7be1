import type { Database } from '../../store/database.ts'
import { cropsOf, type OfCrops } from '../ofCrops.ts'
import { plantingFacts } from '../plots/plantingFacts.ts'
import { sideOf } from '../plots/sideOf.ts'
import { readYieldInputs } from '../readYieldInput.ts'
import { seasonsAsked, USUAL } from '../reckonYield.ts'
import { seasonsFigures } from '../yieldReport.ts'
import { COMPARISON_RULE, type ComparedPlanting, type Comparison, comparisons } from './comparisons.ts'

/** Comparisons of some seasons, and the rule that they follow. */
export interface ReckonedComparisons {
  readonly seasons: readonly number[]
  readonly comparisons: readonly Comparison[]
  readonly rule: string
}

/** Redraws and shuffles start from it, so that the same records always give the same answer. */
const SEED = 20251101

/** What no support held is a group of its own among plantings of crops that climb. */
const UNHELD = { id: '', name: 'no support' }

/** Reckons system, variety and side comparisons within crops, of plantings whose picks were told by planting. */
export async function reckonComparisons(
  db: Database,
  { season, seasons: named, of }: { season: number; seasons: readonly number[]; of: OfCrops | null },
): Promise<ReckonedComparisons> {
  const seasons = seasonsAsked(season, named)
  const inputs = await readYieldInputs(db, seasons)
  const { strips, ground } = seasonsFigures(inputs, USUAL, of === null ? null : await cropsOf(db, of))
  const facts = await plantingFacts(db, [...new Set(strips.flat().map(({ planting }) => planting.id))])
  const plantings = strips.flatMap((ofSeason, s) => {
    const kgOf = new Map(inputs[s]!.picks.plantings.map(({ planting, kg }) => [planting, kg]))
    return ofSeason.flatMap(({ planting, bed, rings, fromM, toM }): ComparedPlanting[] => {
      const kg = kgOf.get(planting.id)
      const fact = facts.get(planting.id)
      if (kg === undefined || fact === undefined || !(toM > fromM)) return []
      const { id, axis, widthM } = ground[bed]!
      const side = planting.row === null ? null : sideOf(rings, axis, widthM)
      const system = fact.system === null ? null : { id: fact.system, name: fact.systemName! }
      return [
        {
          season: seasons[s]!,
          bed: id,
          crop: fact.crop,
          cropName: fact.cropName,
          kg,
          rowM: toM - fromM,
          plants: fact.plants,
          groups: {
            system: system ?? (fact.climbs ? UNHELD : null),
            variety: { id: fact.variety, name: fact.varietyName },
            side: side === null ? null : { id: side, name: side },
          },
        },
      ]
    })
  })
  return { seasons, comparisons: comparisons(plantings, SEED), rule: COMPARISON_RULE }
}
