import type { Crop } from '../model/crops.ts'
import type { Dressing } from '../model/dressings.ts'
import type { Planting } from '../model/plantings.ts'
import type { Tree } from '../model/trees.ts'
import type { Variety } from '../model/varieties.ts'
import type { Box } from '../plane/box.ts'
import type { Metres } from '../plane/lonLat.ts'

/** Everything that says what stands where and what it may meet there; lines and places in the farm's plane. */
export interface Ground {
  readonly seasonStartMonth: number
  readonly beds: ReadonlyMap<string, GroundBed>
  readonly rows: ReadonlyMap<string, GroundRow>
  readonly crops: ReadonlyMap<string, Crop>
  readonly varieties: ReadonlyMap<string, Variety>
  readonly plantings: readonly Planting[]
  /** Trees that give off juglone, with the farthest that their roots will ever reach. */
  readonly sources: readonly { readonly tree: Tree; readonly at: Metres; readonly everM: number }[]
  readonly supports: readonly GroundSupport[]
  /** Raw manure only. */
  readonly manure: readonly Dressing[]
  /** Days of picking by planting, oldest first, of plantings in beds that got raw manure. */
  readonly picked: ReadonlyMap<string, readonly string[]>
}

export interface GroundBed {
  readonly id: string
  readonly field: string
  readonly name: string
  /** The line through its middle along its long axis. */
  readonly middle: readonly Metres[]
}

export interface GroundRow {
  readonly id: string
  readonly bed: string
  readonly name: string | null
  readonly side: string | null
  readonly line: readonly Metres[]
}

export interface GroundSupport {
  readonly id: string
  readonly put_up: string | null
  readonly taken_down: string | null
  readonly line: readonly Metres[]
  readonly box: Box
}
