import { countPart } from './countPart.ts'
import { packRolls } from './packRolls.ts'
import type { Recipe, RecipePart } from './recipe.ts'
import { type BilledRun, sizeOf } from './runBill.ts'

/** What of a part is bought in rolls, and how they are cut over the runs. */
export interface CutRolls {
  readonly part: string
  readonly rollM: number
  readonly cuts: readonly (readonly number[])[]
  readonly wasteM: number
  /** True where no way of cutting takes fewer rolls. */
  readonly best: boolean
}

/** Packs every part that is sold in rolls over all runs, where `only` is given those parts of a run alone; the same part of two systems is one where its rolls are as long. */
export function cutRolls(
  runs: readonly { readonly run: BilledRun; readonly recipe: Recipe; readonly only?: ReadonlySet<RecipePart> }[],
): CutRolls[] {
  const needed = new Map<string, { part: string; rollM: number; pieces: number[] }>()
  for (const { run, recipe, only } of runs)
    for (const part of recipe.parts) {
      if (part.rollM === null || (only && !only.has(part))) continue
      const key = `${part.part} ${part.rollM}`
      const one = needed.get(key) ?? { part: part.part, rollM: part.rollM, pieces: [] }
      one.pieces.push(...piecesOf(part, run, recipe))
      needed.set(key, one)
    }
  return [...needed.values()].flatMap(({ part, rollM, pieces }) => {
    if (pieces.length === 0) return []
    const { rolls, wasteM, best } = packRolls(pieces, rollM)
    return [{ part, rollM, cuts: rolls, wasteM, best }]
  })
}

/** A run's pieces of a part told in metres: one for each line where the system has lines of it, else one. */
function piecesOf({ rule, kind }: RecipePart, run: BilledRun, recipe: Recipe): number[] {
  const metres = rule?.unit === 'm' ? countPart(rule, sizeOf(run, recipe)) : null
  if (metres === null || metres <= 0) return []
  const lines = kind === 'wire' || rule?.per === 'm of line' ? (recipe.lines ?? 1) : 1
  return Array<number>(lines).fill(metres / lines)
}
