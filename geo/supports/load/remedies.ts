import { type Recipe, type RecipePart, UNTOLD } from '../recipe.ts'
import type { BilledRun } from '../runBill.ts'
import { type LoadCase, type LoadCheck, loadCheck } from './loadCheck.ts'

/** One change to a recipe, and the share of what it bears that the part giving first would then have. */
export interface Remedy {
  readonly change: string
  readonly share: number
}

/** What changes most of how a run stands: each change made alone, the one that helps most first; those that don't are left out. */
export function remedies(run: BilledRun, recipe: Recipe, load: LoadCase): Remedy[] {
  const now = worst(loadCheck(run, recipe, load))
  if (now === null) return []
  const changes: readonly (readonly [string, Recipe])[] = [
    ['posts a quarter closer', closer(recipe, 0.75)],
    ['wire a quarter thicker', thicker(recipe, ({ kind }) => kind === 'wire', 1.25)],
    ['posts a quarter thicker', thicker(recipe, ({ kind }) => kind === 'post' || kind === 'end post', 1.25)],
    ['ends braced', braced(recipe)],
  ]
  return changes
    .map(([change, changed]) => ({ change, share: worst(loadCheck(run, changed, load)) ?? now }))
    .filter(({ share }) => share < now * (1 - 1e-9))
    .sort((a, b) => a.share - b.share)
}

const worst = ({ checks }: LoadCheck) => checks[0]?.share ?? null

const withParts = (recipe: Recipe, change: (part: RecipePart) => RecipePart): Recipe => ({
  ...recipe,
  parts: recipe.parts.map(change),
})

function closer(recipe: Recipe, by: number): Recipe {
  return withParts(recipe, (part) =>
    part.kind === 'post' && part.rule?.every != null
      ? { ...part, rule: { ...part.rule, every: part.rule.every * by } }
      : part,
  )
}

const thicker = (recipe: Recipe, which: (part: RecipePart) => boolean, by: number) =>
  withParts(recipe, (part) =>
    which(part) && part.diameterMm !== null ? { ...part, diameterMm: part.diameterMm * by } : part,
  )

function braced(recipe: Recipe): Recipe {
  if (recipe.parts.some(({ kind }) => kind === 'brace')) return recipe
  const brace: RecipePart = {
    part: 'brace',
    kind: 'brace',
    rule: null,
    ruleText: '',
    ...UNTOLD,
  }
  return { ...recipe, parts: [...recipe.parts, brace] }
}
