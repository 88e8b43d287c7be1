import type { TreeProps } from '../../../geo/layers/layer.ts'
import type { Answer, SupportRun } from '../../desk/door.ts'
import { showNumber } from '../show/figures.ts'

/** What lies near some beds on a day, in words: juglone sources, the nearest first, and the supports that stand along them. */
export function liesNear(
  beds: readonly string[],
  clearance: Answer<'clearance'>,
  trees: ReadonlyMap<string, Pick<TreeProps, 'species' | 'name'>>,
  runs: readonly Pick<SupportRun, 'bed' | 'system_name'>[],
): readonly string[] {
  const byTree = new Map<string, { canopyM: number; reached: Set<string> }>()
  for (const pair of clearance) {
    if (!beds.includes(pair.bed)) continue
    const before = byTree.get(pair.tree) ?? { canopyM: Number.POSITIVE_INFINITY, reached: new Set() }
    if (pair.within_reach_m2 > 0) before.reached.add(pair.bed)
    byTree.set(pair.tree, { ...before, canopyM: Math.min(before.canopyM, pair.canopy_m) })
  }
  const sources = [...byTree]
    .sort(([, a], [, b]) => a.canopyM - b.canopyM)
    .map(([id, { canopyM, reached }]) => {
      const tree = trees.get(id)
      const name = tree ? [tree.species, tree.name].filter(Boolean).join(', ') : id
      const where = canopyM < 0 ? 'over these beds' : `${showNumber(canopyM, 1)} m from its canopy’s edge`
      const roots = reached.size > 0 ? `; its roots may reach ${reached.size} of them` : ''
      return `${name}: ${where}${roots}`
    })
  const systems = new Map<string, number>()
  for (const { bed, system_name } of runs)
    if (bed !== null && beds.includes(bed)) systems.set(system_name, (systems.get(system_name) ?? 0) + 1)
  const supports = [...systems].map(
    ([name, count]) => `${name}: ${count} ${count === 1 ? 'run' : 'runs'} along these beds`,
  )
  return [...sources, ...supports]
}
