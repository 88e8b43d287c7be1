import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import type { Corners } from '../shape.ts'
import { crossing } from './cutRing.ts'

/** A piece of a line with where it begins and ends along the whole, in metres. */
export interface LinePiece {
  readonly corners: Corners
  readonly fromM: number
  readonly toM: number
}

/** A line cut at places along it, in metres from its start; places at its ends or beyond cut nothing. */
export function cutLineAt(line: Corners, atM: readonly number[]): readonly LinePiece[] {
  const starts = [0]
  for (let i = 1; i < line.length; i++) starts.push(starts[i - 1]! + distanceM(line[i - 1]!, line[i]!))
  const whole = starts.at(-1)!
  const cuts = [...new Set(atM.filter((m) => m > 1e-5 && m < whole - 1e-5))].sort((a, b) => a - b)
  const stops = [0, ...cuts, whole]
  const at = (m: number): Metres => {
    const i = Math.max(
      1,
      starts.findIndex((s, n) => n > 0 && s >= m),
    )
    const [a, b] = [line[i - 1]!, line[i]!]
    const t = (m - starts[i - 1]!) / (starts[i]! - starts[i - 1]!)
    return t >= 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
  }
  return stops.slice(1).map((toM, n) => {
    const fromM = stops[n]!
    const between = line.filter((_, i) => starts[i]! > fromM + 1e-9 && starts[i]! < toM - 1e-9)
    const first = fromM === 0 ? line[0]! : at(fromM)
    const last = toM === whole ? line.at(-1)! : at(toM)
    return { corners: [first, ...between, last], fromM, toM }
  })
}

/** Where a line is crossed by another, in metres along it. */
export function crossingsM(line: Corners, by: Corners): readonly number[] {
  const found: number[] = []
  let before = 0
  line.slice(1).forEach((b, i) => {
    const a = line[i]!
    const size = distanceM(a, b)
    by.slice(1).forEach((d, k) => {
      const met = crossing(a, b, by[k]!, d)
      if (met) found.push(before + met.s * size)
    })
    before += size
  })
  return found.sort((a, b) => a - b)
}
