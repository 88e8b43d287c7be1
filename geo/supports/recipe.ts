import type { PartKind } from './partKind.ts'
import type { PartRule } from './partRule.ts'
import type { WorkPhase } from './workPhase.ts'

/** One part of a recipe, its rule read. */
export interface RecipePart {
  readonly part: string
  readonly kind: PartKind
  /** Null where the rule is written in no form that can be counted. */
  readonly rule: PartRule | null
  readonly ruleText: string
  readonly unitCost: number | null
  readonly lastsSeasons: number | null
  /** Length that it is sold in, for what is cut from rolls. */
  readonly rollM: number | null
  /** Thickness of a wire, or of a post across the row. */
  readonly diameterMm: number | null
  /** Breaking stress of a wire in tension, of a post in bending. */
  readonly strengthMPa: number | null
  readonly modulusGPa: number | null
  /** A wire's strength is that of the grade that its name tells, since nobody gave another. */
  readonly strengthByName: boolean
}

/** What is not told of a part. */
export const UNTOLD: Omit<RecipePart, 'part' | 'kind' | 'rule' | 'ruleText'> = {
  unitCost: null,
  lastsSeasons: null,
  rollM: null,
  diameterMm: null,
  strengthMPa: null,
  modulusGPa: null,
  strengthByName: false,
}

export interface RecipeWork {
  readonly work: string
  readonly minutesPerM: number | null
  readonly phase: WorkPhase
}

/** A support system with its parts and work. */
export interface Recipe {
  readonly id: string
  readonly name: string
  readonly heightM: number | null
  /** Wires or strings one above another; where it is not told, as many as its wire rule has metres for each metre. */
  readonly lines: number | null
  /** Initial tension of each wire. */
  readonly tensionN: number | null
  readonly parts: readonly RecipePart[]
  readonly work: readonly RecipeWork[]
}
