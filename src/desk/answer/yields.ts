import { planeAbout } from '../../../geo/plane/plane.ts'
import type { Database } from '../../../geo/store/database.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { reckonComparisons } from '../../../geo/yield/compare/reckonComparisons.ts'
import { reckonNear } from '../../../geo/yield/near/reckonNear.ts'
import { reckonPoints } from '../../../geo/yield/points/reckonPoints.ts'
import { reckonYield } from '../../../geo/yield/reckonYield.ts'
import { reckonSeasons } from '../../../geo/yield/seasons/reckonSeasons.ts'
import { yieldOnMap } from '../../../geo/yield/yieldOnMap.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, type Asked, farmOf } from './answers.ts'

export const yieldOf: Answers['yield'] = async (ask, asked) => {
  const origin = await readOrigin(farmOf(asked).db)
  if (!origin) throw new Refusal('not found', 'The farm has no ground yet: draw a field and a bed first.')
  return yieldOnMap(await reckoned(asked, (tx) => reckonYield(tx, ask)), planeAbout(origin))
}

export const yieldComparisons: Answers['yieldComparisons'] = (ask, asked) =>
  reckoned(asked, (tx) => reckonComparisons(tx, ask))

export const yieldNear: Answers['yieldNear'] = (ask, asked) => reckoned(asked, (tx) => reckonNear(tx, ask))

export const yieldPoints: Answers['yieldPoints'] = (ask, asked) => reckoned(asked, (tx) => reckonPoints(tx, ask))

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
