/** A bed and a juglone source near it, on a day. Distances in metres from the bed's nearest edge; areas in m² of bed. */
export interface Clearance {
  readonly bed: string
  readonly tree: string
  /** To the trunk; 0 where it stands in the bed. */
  readonly trunk_m: number
  /** To the canopy's edge, negative inside. */
  readonly canopy_m: number
  readonly under_canopy_m2: number
  readonly within_reach_m2: number
  /** Sensitive crops standing in the bed that day within the tree's reach, by crop id. */
  readonly sensitive: readonly string[]
}
