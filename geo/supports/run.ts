import type { Metres } from '../plane/lonLat.ts'

/** A climbing planting along a run: how much of it the run holds, and how many plants that is. */
export interface HeldPlanting {
  readonly planting: string
  readonly crop: string
  readonly family: string
  readonly variety: string
  readonly heldM: number
  readonly plants: number | null
  /** Ground of its bed for each metre of row, m; null where the bed has no row to share it. */
  readonly groundWidthM: number | null
  /** What all its picks on record gave, of which the held part has its share by length, kg. */
  readonly pickedKg: number
  readonly setOut: string
  readonly cleared: string | null
}

/** A support standing on the day, and what it held in the season so far or was put up for. */
export interface Run {
  readonly id: string
  readonly system: string
  readonly field: string | null
  readonly bed: string | null
  readonly lengthM: number
  readonly heightM: number | null
  readonly permanent: boolean
  readonly putUp: string | null
  readonly reusePosts: 'same part' | 'any post' | 'none' | null
  readonly line: readonly Metres[]
  readonly held: readonly HeldPlanting[]
}

/** Plantings along a run that stand together on the day that each of them is set out: one may follow another there. */
export function standingAtOnce(held: readonly HeldPlanting[]): (readonly HeldPlanting[])[] {
  return held.map(({ setOut }) =>
    held.filter((one) => one.setOut <= setOut && (one.cleared === null || one.cleared > setOut)),
  )
}

/** The most plants that a run holds at one time, as far as they are known; null where none is. */
export function plantsOf({ held }: Pick<Run, 'held'>): number | null {
  if (held.every(({ plants }) => plants === null)) return null
  return Math.max(0, ...standingAtOnce(held).map((group) => group.reduce((sum, { plants }) => sum + (plants ?? 0), 0)))
}
