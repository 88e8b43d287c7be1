import type { Metres } from '../plane/lonLat.ts'

/** The point so far along a line, both in metres of the plane; its end where that is beyond it. */
export function pointAlong(line: readonly Metres[], atM: number): Metres {
  let left = atM
  for (let n = 1; n < line.length; n++) {
    const [from, to] = [line[n - 1]!, line[n]!]
    const lengthM = Math.hypot(to[0] - from[0], to[1] - from[1])
    if (left <= lengthM && lengthM > 0) {
      const share = left / lengthM
      return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
    }
    left -= lengthM
  }
  const end = line.at(-1)
  if (!end) throw new Error(`no point at ${atM} m along a line without corners`)
  return end
}

/** How far along a line (metres) the place on it nearest to a point lies, and how far off the point is. */
export function placeAlong(line: readonly Metres[], at: Metres): { readonly atM: number; readonly offM: number } {
  let best = { atM: 0, offM: Number.POSITIVE_INFINITY }
  let behindM = 0
  for (let n = 1; n < line.length; n++) {
    const [from, to] = [line[n - 1]!, line[n]!]
    const [east, north] = [to[0] - from[0], to[1] - from[1]]
    const lengthM = Math.hypot(east, north)
    const share =
      lengthM === 0
        ? 0
        : Math.min(1, Math.max(0, ((at[0] - from[0]) * east + (at[1] - from[1]) * north) / lengthM ** 2))
    const offM = Math.hypot(at[0] - from[0] - east * share, at[1] - from[1] - north * share)
    if (offM < best.offM) best = { atM: behindM + lengthM * share, offM }
    behindM += lengthM
  }
  return best
}
