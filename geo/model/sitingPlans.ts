import { day, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A plan of where permanent supports should stand: what was asked and what was answered, each as JSON text. */
export const sitingPlans = kind('siting_plans', 'siting_plans.csv', {
  id: text(),
  name: text(),
  made: day(),
  asked: text(),
  answer: optional(text()),
})
export type SitingPlanKept = RecordOf<typeof sitingPlans>
