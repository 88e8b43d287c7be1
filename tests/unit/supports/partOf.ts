import { readPartRule } from '../../../geo/supports/partRule.ts'
import type { RecipePart } from '../../../geo/supports/recipe.ts'

/** A part of an invented system, with nothing told of it but what `more` says. */
export const partOf = (part: string, ruleText: string, more: Partial<RecipePart> = {}): RecipePart => ({
  part,
  kind: 'other',
  rule: readPartRule(ruleText),
  ruleText,
  unitCost: null,
  lastsSeasons: null,
  rollM: null,
  diameterMm: null,
  strengthMPa: null,
  modulusGPa: null,
  strengthByName: false,
  ...more,
})
