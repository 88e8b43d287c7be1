import { bedAt, nearPlantings as readNear } from '../../../geo/picking/nearPlantings.ts'
import { notebookNames as readNames } from '../../../geo/picking/notebookNames.ts'
import { pickHabits as readHabits } from '../../../geo/picking/pickHabits.ts'
import { seasonPicking as readSeason } from '../../../geo/picking/seasonPicking.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { seasonSpan } from '../../../geo/yield/season.ts'
import { type Answers, farmOf } from './answers.ts'

export const seasonPicking: Answers['seasonPicking'] = ({ season, on }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const [farm] = await tx.rows<{ month: number }>('select season_start_month as month from farm')
    const { from, to } = seasonSpan(season, farm?.month ?? 1)
    return readSeason(tx, { from, to: [on, to].sort()[0]! })
  })

export const pickHabits: Answers['pickHabits'] = ({ on }, asked) =>
  farmOf(asked).db.transaction((tx) => readHabits(tx, on))

export const nearPlantings: Answers['nearPlantings'] = ({ at, on, most }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    if (!(await readOrigin(tx))) return { plantings: [], bed: null }
    return { plantings: await readNear(tx, at, on, most), bed: await bedAt(tx, at, on) }
  })

export const notebookNames: Answers['notebookNames'] = (_, asked) => farmOf(asked).db.transaction(readNames)
