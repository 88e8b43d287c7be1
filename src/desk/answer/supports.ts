import type { Database } from '../../../geo/store/database.ts'
import { heldThroughSeason } from '../../../geo/supports/heldThroughSeason.ts'
import { supportsSeen as readSeen } from '../../../geo/supports/supportsSeen.ts'
import { supportsWear as readWear } from '../../../geo/supports/supportsWear.ts'
import { systemsCompared as compare } from '../../../geo/supports/systemsCompared.ts'
import { seasonOf, seasonSpan } from '../../../geo/yield/season.ts'
import { type Answers, farmOf } from './answers.ts'

export const supportsSeen: Answers['supportsSeen'] = ({ on }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const month = await startMonth(tx)
    return readSeen(tx, on, seasonSpan(seasonOf(on, month), month), month)
  })

export const heldSeason: Answers['heldSeason'] = ({ season }, asked) =>
  farmOf(asked).db.transaction(async (tx) => heldThroughSeason(tx, seasonSpan(season, await startMonth(tx))))

export const supportsWear: Answers['supportsWear'] = ({ on }, asked) =>
  farmOf(asked).db.transaction(async (tx) => readWear(tx, on, await startMonth(tx)))

export const systemsCompared: Answers['systemsCompared'] = ({ season }, asked) =>
  farmOf(asked).db.transaction((tx) => compare(tx, season))

async function startMonth(tx: Database): Promise<number> {
  const [farm] = await tx.rows<{ month: number }>('select season_start_month as month from farm')
  return farm?.month ?? 1
}
