import type { LiveMeasures } from './session.ts'

/** Measures of nothing yet. */
export const NO_MEASURES: LiveMeasures = {
  corners: 0,
  areaM2: null,
  lengthM: null,
  widthM: null,
  bearingDeg: null,
  segmentM: null,
  segmentDeg: null,
  snapped: null,
  held: [],
  problem: null,
  at: null,
  canDrop: false,
  moved: null,
  sums: null,
}
