import type { RotationAnswer } from '../../../geo/rotation/rotate.ts'
import type { RotationReading } from '../../../geo/rotation/rotationReading.ts'
import type { SitingAnswer } from '../../../geo/siting/answer.ts'
import type { Plan } from '../../../geo/siting/problem.ts'
import type { SitingReading } from '../../../geo/siting/sitingReading.ts'
import type { Progress } from '../../../geo/siting/solver/solve.ts'

export type { RotationAnswer } from '../../../geo/rotation/rotate.ts'
export { ROTATION_WEIGHTS, type RotationWeight } from '../../../geo/rotation/weights.ts'
export type { Reason, SitedRow, SitingAnswer, SitingPlan } from '../../../geo/siting/answer.ts'
export type { LotToLift } from '../../../geo/siting/lotsToLift.ts'
export type { PartUse, YearBill, YearPart } from '../../../geo/siting/planBill.ts'
export type { Progress } from '../../../geo/siting/solver/solve.ts'

/** Page to the worker that chooses: once, then the worker is done. */
export type ToChoose = {
  /** Ends when the plan is known to be within this part of the best, or after so many seconds. */
  readonly gap: number
  readonly seconds: number
} & ({ readonly sites: SitingReading; readonly others: number } | { readonly rotation: RotationReading })

/** Told now and then, with the plan wherever it is a better one than that told last; then one answer. */
export type FromChooser =
  | { readonly progress: Progress; readonly plan?: Plan }
  | { readonly answer: SitingAnswer | RotationAnswer }
  | { readonly failed: string }
