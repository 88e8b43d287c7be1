import type { Recipe } from './recipe.ts'

/**
 * Which systems to set against each other where nobody says: one that is usually left up (it has braces, or a run of it
 * is permanent), and one that is not, of the run looked at where it can be. Needs one recipe at least.
 */
export function usualPair(
  recipes: readonly Recipe[],
  runs: readonly { readonly system: string; readonly permanent: boolean }[],
  lookedAt: string | null,
): { readonly permanent: Recipe; readonly oneSeason: Recipe } {
  const first = recipes[0]
  if (!first) throw new Error('no system to compare')
  const isLeftUp = (recipe: Recipe) =>
    recipe.parts.some(({ kind }) => kind === 'brace') ||
    runs.some(({ system, permanent }) => system === recipe.id && permanent)
  return {
    permanent: recipes.find(isLeftUp) ?? first,
    oneSeason:
      recipes.find((recipe) => recipe.id === lookedAt && !isLeftUp(recipe)) ??
      recipes.find((recipe) => !isLeftUp(recipe)) ??
      first,
  }
}
