import { planeAbout } from '../../../geo/plane/plane.ts'
import type { Database } from '../../../geo/store/database.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { reckonComparisons } from '../../../geo/yield/compare/reckonComparisons.ts'
import { reckonNear } from '../../../geo/yield/near/reckonNear.ts'
import { readPoints, reckonPoints } from '../../../geo/yield/points/reckonPoints.ts'
import { type ReckonedYield, reckonYield, seasonsAsked } from '../../../geo/yield/reckonYield.ts'
import { reckonSeasons } from '../../../geo/yield/seasons/reckonSeasons.ts'
import { yieldIndex } from '../../../geo/yield/yieldIndex.ts'
import { yieldOnMap } from '../../../geo/yield/yieldOnMap.ts'
import { resmoothed } from '../../../geo/yield/yieldReport.ts'
import type { Ask } from '../door.ts'
import type { FarmInHand } from '../farm/keeper.ts'
import { paceOf } from '../farm/pace.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, Aside, type Asked, farmOf } from './answers.ts'

export const yieldOf: Answers['yield'] = async (ask, asked) => {
  const origin = await readOrigin(farmOf(asked).db)
  if (!origin) throw new Refusal('not found', 'The farm has no ground yet: draw a field and a bed first.')
  return yieldOnMap(await inHand(ask, asked), planeAbout(origin))
}

export const yieldSmooth: Answers['yieldSmooth'] = async (ask, asked) => {
  const { report } = await inHand(ask, asked)
  const { kg, countedKg, expectedKg } = report.smooth
  const index = expectedKg.map((expected, k) => yieldIndex(countedKg[k]!, expected) ?? Number.NaN)
  return { smoothM: ask.smoothM, kg, index }
}

/** The yield reckoned last of each farm, with what it was asked for and the steps taken until then. */
const last = new WeakMap<FarmInHand, { readonly of: string; readonly steps: number; readonly is: ReckonedYield }>()

/** Yield as asked for; where only the smoothing is another than last time and no step was taken since, only that is redone. */
async function inHand({ smoothM, ...ask }: Ask<'yieldSmooth'>, asked: Asked): Promise<ReckonedYield> {
  const farm = farmOf(asked)
  const of = JSON.stringify([seasonsAsked(ask.season, ask.seasons), ask.of, ask.cellM])
  const before = last.get(farm)
  const { steps } = farm
  if (before?.of === of && before.steps === steps) {
    if (before.is.report.settings.smoothM === smoothM) return before.is
    const is = { ...before.is, report: resmoothed(before.is.report, smoothM) }
    last.set(farm, { of, steps, is })
    return is
  }
  const is = await reckoned(asked, (tx) => reckonYield(tx, { ...ask, smoothM }))
  last.set(farm, { of, steps, is })
  return is
}

export const yieldComparisons: Answers['yieldComparisons'] = (ask, asked) =>
  reckoned(asked, (tx) => reckonComparisons(tx, ask))

export const yieldNear: Answers['yieldNear'] = (ask, asked) => reckoned(asked, (tx) => reckonNear(tx, ask))

export const yieldPoints: Answers['yieldPoints'] = async ({ method, ...ask }, asked) => {
  const read = await reckoned(asked, (tx) => readPoints(tx, ask))
  return new Aside(() => reckonPoints(read, method, paceOf(asked, null)))
}

export const yieldSeasons: Answers['yieldSeasons'] = async (ask, asked) => {
  const { together: _, ...told } = await reckoned(asked, (tx) => reckonSeasons(tx, ask))
  return told
}

/** Reckons in one transaction; a cell, crop or family that can't be used is a fault of the asking. */
async function reckoned<T>(asked: Asked, work: (tx: Database) => Promise<T>): Promise<T> {
  try {
    return await farmOf(asked).db.transaction(work)
  } catch (error) {
    if (error instanceof RangeError) throw new Refusal('asked wrongly', error.message)
    throw error
  }
}
