import type { Metres } from '../plane/lonLat.ts'
import type { PlaneFix, WalkEvent } from './fix.ts'
import { type HeldCorner, heldCorner } from './heldCorner.ts'
import { walkOutliers } from './outliers.ts'

/** A walk as it was done: stretches walked and corners held, in order. */
export interface Walk {
  readonly parts: readonly WalkPart[]
  /** Standing still at this moment. */
  readonly holding: boolean
  readonly fixes: number
}
export type WalkPart =
  | { readonly is: 'walked'; readonly fixes: readonly PlaneFix[]; readonly out: readonly boolean[] }
  | { readonly is: 'held'; readonly fixes: readonly PlaneFix[]; readonly corner: HeldCorner | null }

/** Reads a walk from all that was done: a corner that was taken back is gone, stretches without positions too. */
export function readWalk(events: readonly WalkEvent[], toMetres: (lonLat: readonly [number, number]) => Metres): Walk {
  const parts: { is: 'walked' | 'held'; fixes: PlaneFix[] }[] = []
  let holding = false
  const begin = (is: 'walked' | 'held') => parts.push({ is, fixes: [] })
  for (const event of events)
    if (event.does === 'fix') {
      if (parts.length === 0 || (!holding && parts.at(-1)!.is === 'held')) begin('walked')
      parts.at(-1)!.fixes.push({ at: toMetres([event.lon, event.lat]), accuracyM: event.accuracyM, atMs: event.atMs })
    } else if (event.does === 'hold') {
      if (!holding) begin('held')
      holding = true
    } else if (event.does === 'go on') holding = false
    else {
      holding = false
      const last = parts.findLastIndex(({ is }) => is === 'held')
      if (last >= 0) parts.splice(last, 1)
    }
  const told = parts.filter((part, n) => part.fixes.length > 0 || (holding && n === parts.length - 1))
  return {
    holding,
    fixes: told.reduce((sum, { fixes }) => sum + fixes.length, 0),
    parts: told.map(({ is, fixes }) =>
      is === 'held' ? { is, fixes, corner: heldCorner(fixes) } : { is, fixes, out: walkOutliers(fixes) },
    ),
  }
}

/** How many positions of the way walked are left out. */
export function leftOut({ parts }: Walk): number {
  return parts.reduce((sum, part) => sum + (part.is === 'walked' ? part.out.filter(Boolean).length : 0), 0)
}

/** The walk with every position of its way taken. */
export function takenWhole(walk: Walk): Walk {
  const parts = walk.parts.map(
    (part): WalkPart => (part.is === 'walked' ? { ...part, out: part.fixes.map(() => false) } : part),
  )
  return { ...walk, parts }
}
