import { bedAt, nearPlantings as readNear } from '../../../geo/picking/nearPlantings.ts'
import { notebookNames as readNames } from '../../../geo/picking/notebookNames.ts'
import { pickHabits as readHabits } from '../../../geo/picking/pickHabits.ts'
import { plantingNamed } from '../../../geo/picking/plantingNamed.ts'
import { readPick as readInFull } from '../../../geo/picking/readPick.ts'
import { seasonPicking as readSeason } from '../../../geo/picking/seasonPicking.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { seasonSpan } from '../../../geo/yield/season.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

export const seasonPicking: Answers['seasonPicking'] = ({ season, on }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const [farm] = await tx.rows<{ month: number }>('select season_start_month as month from farm')
    const { from, to } = seasonSpan(season, farm?.month ?? 1)
    return readSeason(tx, { from, to: [on, to].sort()[0]! })
  })

export const pickHabits: Answers['pickHabits'] = ({ on }, asked) =>
  farmOf(asked).db.transaction((tx) => readHabits(tx, on))

export const readPick: Answers['readPick'] = async ({ id }, asked) => {
  const pick = await farmOf(asked).db.transaction((tx) => readInFull(tx, id))
  if (!pick) throw new Refusal('not found', 'This pick is not there any more.', { record: id })
  return pick
}

export const namePlanting: Answers['namePlanting'] = async ({ id }, asked) => {
  const named = await plantingNamed(farmOf(asked).db, id)
  if (!named) throw new Refusal('not found', 'This planting is not there any more.', { record: id })
  return named
}

export const nearPlantings: Answers['nearPlantings'] = ({ at, on, most }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    if (!(await readOrigin(tx))) return { plantings: [], bed: null }
    return { plantings: await readNear(tx, at, on, most), bed: await bedAt(tx, at, on) }
  })

export const notebookNames: Answers['notebookNames'] = (_, asked) => farmOf(asked).db.transaction(readNames)
