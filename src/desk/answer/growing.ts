import { historyOf } from '../../../geo/growing/bedHistory.ts'
import { copySeason as copy } from '../../../geo/growing/copySeason.ts'
import { readGround } from '../../../geo/growing/readGround.ts'
import { warningsAhead } from '../../../geo/growing/warningsAhead.ts'
import { layRotation as lay } from '../../../geo/rotation/layRotation.ts'
import { readRotation as readForRotation } from '../../../geo/rotation/readRotation.ts'
import { readRotationFile } from '../../../geo/rotation/rotationFile.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

export const warnings: Answers['warnings'] = ({ on, beds, edits }, asked) =>
  farmOf(asked).db.transaction((tx) => warningsAhead(tx, on, beds, edits))

export const bedHistory: Answers['bedHistory'] = async ({ bed }, asked) => {
  const history = historyOf(await farmOf(asked).db.transaction((tx) => readGround(tx, [bed])), bed)
  if (!history) throw new Refusal('not found', 'The bed is not there any more.', { record: bed })
  return history
}

export const copySeason: Answers['copySeason'] = async ({ season, to, by }, asked) =>
  copy(await farmOf(asked).db.transaction((tx) => readGround(tx, null)), season, { to, by })

export const readRotation: Answers['readRotation'] = async ({ rotation, on }, asked) => {
  const read = readRotationFile(rotation)
  return 'faults' in read ? read : farmOf(asked).db.transaction((tx) => readForRotation(tx, read.asked, on))
}

export const layRotation: Answers['layRotation'] = async ({ rotation, seasons }, asked) =>
  lay(await farmOf(asked).db.transaction((tx) => readGround(tx, null)), rotation, seasons)
