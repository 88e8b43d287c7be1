import { climbedBySeason } from '../../../geo/growing/climbedBySeason.ts'
import { canopyYears as readCanopyYears } from '../../../geo/measure/canopyYears.ts'
import { readPlanFile } from '../../../geo/siting/planFile.ts'
import { readSiting as readForSiting } from '../../../geo/siting/readSiting.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { bedShade as reckonShade } from '../../../geo/sun/bedShade.ts'
import { readCasters } from '../../../geo/sun/readCasters.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

export const casters: Answers['casters'] = ({ on }, asked) => farmOf(asked).db.transaction((tx) => readCasters(tx, on))

export const bedShade: Answers['bedShade'] = (ask, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const origin = await readOrigin(tx)
    if (!origin) throw new Refusal('not found', 'The farm has no ground yet: draw a field and a bed first.')
    return reckonShade(tx, origin, ask)
  })

export const canopyYears: Answers['canopyYears'] = ({ on, ahead }, asked) =>
  farmOf(asked).db.transaction((tx) => readCanopyYears(tx, on, ahead))

export const climbed: Answers['climbed'] = (_, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const [farm] = await tx.rows<{ month: number }>('select season_start_month as month from farm')
    return climbedBySeason(tx, farm?.month ?? 1)
  })

export const readSiting: Answers['readSiting'] = async ({ plan }, asked) => {
  const read = readPlanFile(plan)
  return 'faults' in read ? read : farmOf(asked).db.transaction((tx) => readForSiting(tx, read.asked))
}
