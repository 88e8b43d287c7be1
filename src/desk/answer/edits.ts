import { removalOf } from '../../../geo/store/dependents.ts'
import { changedBy } from '../farm/changedBy.ts'
import { takeBackStep, takeStep } from '../farm/takeStep.ts'
import { type Answers, type Asked, farmOf } from './answers.ts'

export const edit: Answers['edit'] = async ({ label, edits, on }, asked) => {
  const farm = farmOf(asked)
  return changedBy(farm, await takeStep(asked.keeper, farm, label, edits), on)
}

export const remove: Answers['remove'] = async ({ things, label, on }, asked) => {
  const farm = farmOf(asked)
  const edits = await removalOf(farm.db, things)
  return changedBy(farm, await takeStep(asked.keeper, farm, label, edits), on)
}

async function takenBack(which: 'undo' | 'redo', on: string, asked: Asked) {
  const farm = farmOf(asked)
  const step = await takeBackStep(asked.keeper, farm, which)
  return step && changedBy(farm, step, on)
}

export const undo: Answers['undo'] = ({ on }, asked) => takenBack('undo', on, asked)
export const redo: Answers['redo'] = ({ on }, asked) => takenBack('redo', on, asked)
