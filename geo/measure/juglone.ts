import type { Tree } from '../model/trees.ts'

const SOURCES = /\bjuglans\s+(nigra|cinerea)\b|\bblack\s+walnut\b|\bbutternut\b/i
const BLACK_ROOTS = /\bnigra\b|\bhindsii\b|\bblack\b/i

/**
 * Whether a tree gives off juglone: as its record says, else by its species or the stock it is grafted on. Black walnut
 * and butternut do (Purdue HO-193); Persian walnut on its own roots makes so little that reactions are rarely seen, but
 * is often grafted on black walnut (OMAFRA).
 */
export function isJugloneSource(tree: Pick<Tree, 'juglone' | 'species' | 'rootstock'>): boolean {
  if (tree.juglone !== null) return tree.juglone === 'source'
  return SOURCES.test(tree.species) || (tree.rootstock !== null && BLACK_ROOTS.test(tree.rootstock))
}
