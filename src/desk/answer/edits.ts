import { removalOf } from '../../../geo/store/dependents.ts'
import { type Answers, farmOf } from './answers.ts'
import { keptBack, keptStep } from './keptStep.ts'

export const edit: Answers['edit'] = ({ label, edits, on }, asked) => keptStep(asked, label, edits, on)

export const remove: Answers['remove'] = async ({ things, label, on }, asked) => {
  return keptStep(asked, label, await removalOf(farmOf(asked).db, things), on)
}

export const undo: Answers['undo'] = ({ on }, asked) => keptBack(asked, 'undo', on)
export const redo: Answers['redo'] = ({ on }, asked) => keptBack(asked, 'redo', on)
