import { readPlanFile } from '../../../geo/siting/planFile.ts'
import { units } from '../state/farm.ts'
import { answer, changeNeed, keptAnswer, keptPlans, lookedAt, needChanged, needFaults } from '../state/sitingPlan.ts'
import { draftOf } from './needDraft.ts'

/**
 * Shows a kept plan again, with the need that it was chosen for; what is typed now is let go of. Not among the page's
 * state: what reads a plan is long, and comes with the view that offers it.
 */
export function lookAtKept(id: string): void {
  const kept = keptPlans.value.find((one) => one.id === id)
  if (!kept?.answer) return
  const read = readPlanFile(JSON.parse(kept.asked))
  if ('asked' in read) changeNeed(draftOf(read.asked, units.value))
  answer.value = keptAnswer(kept.answer)
  lookedAt.value = 0
  needChanged.value = false
  needFaults.value = {}
}
