import type { Edit } from '../../../geo/store/edit.ts'
import type { Step } from '../../../geo/store/step.ts'
import type { Changed } from '../door.ts'
import { changedBy } from '../farm/changedBy.ts'
import { paceOf } from '../farm/pace.ts'
import { takeBackStep, takeStep } from '../farm/takeStep.ts'
import { type Asked, farmOf } from './answers.ts'

/**
 * Keeps edits as one step, says how many of its records are written, and gives what it changed. Stopped before it is
 * kept, nothing of it stays; once it is kept, stopping does nothing more.
 */
export async function keptStep(asked: Asked, label: string, edits: readonly Edit[], on: string): Promise<Changed> {
  const farm = farmOf(asked)
  const step = await takeStep(asked.keeper, farm, label, edits, paceOf(asked, KEEPING))
  return shown(asked, step, on)
}

/** Takes back the last step, or does it again, in the same way; null where there is none. */
export async function keptBack(asked: Asked, which: 'undo' | 'redo', on: string): Promise<Changed | null> {
  const farm = farmOf(asked)
  const step = await takeBackStep(asked.keeper, farm, which, paceOf(asked, KEEPING))
  return step && shown(asked, step, on)
}

const KEEPING = 'keeping records'
/** Steps of more than these records are told of when they are kept, before what they changed is read. */
const MANY = 500

function shown(asked: Asked, step: Step, on: string): Promise<Changed> {
  const of = step.changes.length
  if (of > MANY) asked.keeper.say({ event: 'progress', progress: { doing: 'showing what is kept', done: of, of } })
  return changedBy(farmOf(asked), step, on)
}
