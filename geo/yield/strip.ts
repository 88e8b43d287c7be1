import type { HalfPlane } from './clipHalfPlane.ts'
import type { Line } from './rowStretch.ts'

/**
 * The strip along a line, `widthM` wide and square at its ends, as convex windows, one for each segment. At a bend the
 * windows meet on the line that halves the angle (a mitre), so that they neither overlap nor leave a gap.
 * A line without length gives no window.
 */
export function stripWindows(line: Line, widthM: number): HalfPlane[][] {
  const points = withoutRepeats(line)
  const directions = points.slice(1).map(([x, y], k) => {
    const [x0, y0] = points[k]!
    const length = Math.hypot(x - x0, y - y0)
    return [(x - x0) / length, (y - y0) / length] as const
  })
  return directions.map(([ux, uy], k) => {
    const [x, y] = points[k]!
    const across = ux * y - uy * x
    return [
      beyond(points[k]!, halving(directions[k - 1], directions[k]!)),
      before(points[k + 1]!, halving(directions[k + 1], directions[k]!)),
      { nx: -uy, ny: ux, c: across - widthM / 2 },
      { nx: uy, ny: -ux, c: -across - widthM / 2 },
    ]
  })
}

type Vector = readonly [number, number]

function withoutRepeats(line: Line): Vector[] {
  const points: Vector[] = []
  for (let k = 0; k < line.length; k += 2) {
    const last = points[points.length - 1]
    if (last === undefined || last[0] !== line[k] || last[1] !== line[k + 1]) points.push([line[k]!, line[k + 1]!])
  }
  return points
}

/** Direction across which two segments are parted; a line that doubles back is parted square to the segment. */
function halving(neighbour: Vector | undefined, own: Vector): Vector {
  if (neighbour === undefined) return own
  const sum: Vector = [neighbour[0] + own[0], neighbour[1] + own[1]]
  return Math.hypot(...sum) < 1e-6 ? own : sum
}

function beyond([x, y]: Vector, [ux, uy]: Vector): HalfPlane {
  return { nx: ux, ny: uy, c: ux * x + uy * y }
}

function before(point: Vector, [ux, uy]: Vector): HalfPlane {
  return beyond(point, [-ux, -uy])
}
