import { historyOf } from '../../../geo/growing/bedHistory.ts'
import { copySeason as copy } from '../../../geo/growing/copySeason.ts'
import { readGround } from '../../../geo/growing/readGround.ts'
import { warningsAhead } from '../../../geo/growing/warningsAhead.ts'
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
