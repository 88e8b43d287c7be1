/** A line in the plane as flat metres `[x0, y0, x1, y1, …]`. */
export type Line = readonly number[]

/** Length of a line in metres. */
export function lineLengthM(line: Line): number {
  let length = 0
  for (let k = 2; k < line.length; k += 2) length += Math.hypot(line[k]! - line[k - 2]!, line[k + 1]! - line[k - 1]!)
  return length
}

/** The stretch of a line between two distances along it, in metres from its start, held to the line's ends. */
export function rowStretch(line: Line, fromM: number, toM: number): Line {
  const out: number[] = []
  let here = 0
  for (let k = 2; k < line.length; k += 2) {
    const x0 = line[k - 2]!
    const y0 = line[k - 1]!
    const dx = line[k]! - x0
    const dy = line[k + 1]! - y0
    const step = Math.hypot(dx, dy)
    const a = Math.max(0, fromM - here)
    const b = Math.min(step, toM - here)
    if (step > 0 && a < b) {
      if (out.length === 0) out.push(x0 + (dx * a) / step, y0 + (dy * a) / step)
      out.push(x0 + (dx * b) / step, y0 + (dy * b) / step)
    }
    here += step
  }
  return out
}
