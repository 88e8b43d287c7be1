import type { Metres } from '../plane/lonLat.ts'

/** A climbing planting along a run: how much of it the run holds, and how many plants that is. */
export interface HeldPlanting {
  readonly planting: string
  readonly crop: string
  readonly variety: string
  readonly heldM: number
  readonly plants: number | null
  /** Ground of its bed for each metre of row, m; null where the bed has no row to share it. */
  readonly groundWidthM: number | null
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

/** The most of something that plantings along a run have at one time: one may follow another there. */
export function mostAtOnce(held: readonly HeldPlanting[], of: (one: HeldPlanting) => number): number {
  const sums = held.map(({ setOut }) =>
    held
      .filter((one) => one.setOut <= setOut && (one.cleared === null || one.cleared > setOut))
      .reduce((sum, one) => sum + of(one), 0),
  )
  return Math.max(0, ...sums)
}

/** The most plants that a run holds at one time, as far as they are known; null where none is. */
export function plantsOf({ held }: Pick<Run, 'held'>): number | null {
  return held.some(({ plants }) => plants !== null) ? mostAtOnce(held, ({ plants }) => plants ?? 0) : null
}
