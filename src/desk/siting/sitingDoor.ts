import type { SitingAnswer } from '../../../geo/siting/answer.ts'
import type { SitingReading } from '../../../geo/siting/sitingReading.ts'
import type { Progress } from '../../../geo/siting/solver/solve.ts'

export type { SitedRow, SitingAnswer, SitingPlan } from '../../../geo/siting/answer.ts'
export type { Progress } from '../../../geo/siting/solver/solve.ts'

/** Page to the worker that chooses: once, then the worker is done. */
export interface ToChoose {
  readonly reading: SitingReading
  /** Ends when the plan is known to be within this part of the best, or after so many seconds. */
  readonly gap: number
  readonly seconds: number
  readonly others: number
}
export type FromChooser =
  | { readonly progress: Progress }
  | { readonly answer: SitingAnswer }
  | { readonly failed: string }
