import { readPartRule } from '../../../geo/supports/partRule.ts'
import { type RecipePart, UNTOLD } from '../../../geo/supports/recipe.ts'

/** A part of an invented system, with nothing told of it but what `more` says. */
export const partOf = (part: string, ruleText: string, more: Partial<RecipePart> = {}): RecipePart => ({
  part,
  kind: 'other',
  rule: readPartRule(ruleText),
  ruleText,
  ...UNTOLD,
  ...more,
})
