import type { Metres } from './lonLat.ts'

/** West, south, east and north in the farm's plane. */
export type Box = readonly [west: number, south: number, east: number, north: number]

/** The least box about a line. */
export function boxOf(line: readonly Metres[]): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const [x, y] of line) {
    west = Math.min(west, x)
    south = Math.min(south, y)
    east = Math.max(east, x)
    north = Math.max(north, y)
  }
  return [west, south, east, north]
}
