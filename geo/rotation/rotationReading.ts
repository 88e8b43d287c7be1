import type { SitingProblem } from '../siting/problem.ts'
import type { CropGroup } from './cropGroups.ts'
import type { FamilyReturn } from './familyReturns.ts'
import type { LeftOut } from './leftOut.ts'
import type { RotationAsked } from './rotationFile.ts'

/** A bed as the rotation sees it. */
export interface RotationBed {
  readonly id: string
  readonly name: string
  readonly field: string
  readonly lengthM: number
  readonly left: LeftOut | null
  /** A permanent support runs along it. */
  readonly supported: boolean
}

/** All that a rotation is reckoned from: its families are the crop groups, in their order, and its beds those told here. */
export interface RotationReading {
  readonly asked: RotationAsked
  readonly problem: SitingProblem
  readonly groups: readonly CropGroup[]
  readonly returns: readonly FamilyReturn[]
  readonly beds: readonly RotationBed[]
  /** Plantings of the seasons ahead that are only planned, and stand in beds of the rotation. */
  readonly planned: readonly { readonly id: string; readonly bed: string; readonly season: number }[]
}
