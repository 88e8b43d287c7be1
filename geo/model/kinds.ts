import { beds } from './beds.ts'
import { containers } from './containers.ts'
import { corrections } from './corrections.ts'
import { crops } from './crops.ts'
import { dressings } from './dressings.ts'
import { farm } from './farm.ts'
import { fields } from './fields.ts'
import type { Kind } from './kind.ts'
import { observations } from './observations.ts'
import { photos } from './photos.ts'
import { picks } from './picks.ts'
import { plantings } from './plantings.ts'
import { rows } from './rows.ts'
import { shares } from './shares.ts'
import { sitingPlans } from './sitingPlans.ts'
import { stockLots, stockMoves } from './stock.ts'
import { stores } from './stores.ts'
import { structures } from './structures.ts'
import { supports, supportWork } from './supports.ts'
import { systemParts, systems, systemWork } from './systems.ts'
import { trees } from './trees.ts'
import { varieties } from './varieties.ts'

/** Every kind of record but the farm itself, each after those it refers to. */
export const KINDS: readonly Kind[] = [
  crops,
  varieties,
  containers,
  systems,
  systemParts,
  systemWork,
  stores,
  fields,
  beds,
  rows,
  trees,
  supports,
  supportWork,
  structures,
  observations,
  plantings,
  picks,
  shares,
  corrections,
  dressings,
  stockLots,
  stockMoves,
  photos,
  sitingPlans,
]

const BY_NAME = new Map<string, Kind>([farm, ...KINDS].map((k) => [k.name, k]))

/** The kind of that name; throws where there is none. */
export function kindNamed(name: string): Kind {
  const found = BY_NAME.get(name)
  if (!found) throw new Error(`no kind of record is called ${JSON.stringify(name)}`)
  return found
}
