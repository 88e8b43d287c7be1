import { spreadOn } from '../measure/canopy.ts'
import type { Tree } from '../model/trees.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Ground } from './ground.ts'

/** A day by which every tree has grown as far as its curve goes. */
const FULL_GROWN = '9999-12-31'

/** A tree that gives off juglone, where it stands and the farthest that its roots will ever be taken to reach. */
export function walnutSource(tree: Tree, at: Metres): Ground['sources'][number] {
  return { tree, at, everM: spreadOn(tree, FULL_GROWN).reachM }
}
