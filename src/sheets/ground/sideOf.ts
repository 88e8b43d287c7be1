import type { LineString, Polygon } from 'geojson'
import { middleOf } from './lies.ts'

/** The two edges and the middle of a bed by compass: a bed that runs nearer east–west has a north and a south edge. */
export function sidesOf(bearingDeg: number): readonly [string, string, string] {
  return runsEastWest(bearingDeg) ? ['north edge', 'middle', 'south edge'] : ['west edge', 'middle', 'east edge']
}

/** The side of a bed that a row lies on: the middle third of the bed's width, or the edge that it lies toward. */
export function sideOf(
  row: LineString,
  bed: Polygon,
  size: { readonly bearing_deg: number; readonly width_m: number },
) {
  const [a, b] = [middleOf(row), middleOf(bed)]
  if (!a || !b) return null
  const east = (a[0] - b[0]) * METRES_PER_DEGREE * Math.cos((b[1] * Math.PI) / 180)
  const north = (a[1] - b[1]) * METRES_PER_DEGREE
  const bearing = (size.bearing_deg * Math.PI) / 180
  const rightM = east * Math.cos(bearing) - north * Math.sin(bearing)
  const [first, middle, last] = sidesOf(size.bearing_deg)
  if (Math.abs(rightM) < size.width_m / 6) return middle
  const southOrEast = runsEastWest(size.bearing_deg) ? rightM * -Math.sin(bearing) < 0 : rightM * Math.cos(bearing) > 0
  return southOrEast ? last : first
}

/** Of the earth's mean radius: good enough to tell one side of a bed from the other. */
const METRES_PER_DEGREE = 111_195

const runsEastWest = (bearingDeg: number) => Math.abs(Math.sin((bearingDeg * Math.PI) / 180)) >= Math.SQRT1_2
