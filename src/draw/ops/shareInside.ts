import type { Metres } from '../../../geo/plane/lonLat.ts'
import { lineLengthM } from '../measureShape.ts'
import type { Corners } from '../shape.ts'
import { within } from './cutRing.ts'
import { crossingsM, cutLineAt } from './splitLine.ts'

/** The share of a line's length (0 to 1) that lies within a polygon. */
export function shareInside(line: Corners, rings: readonly Corners[]): number {
  const whole = lineLengthM(line)
  if (whole === 0) return line[0] && within(rings, line[0]) ? 1 : 0
  const cuts = rings.flatMap((ring) => crossingsM(line, [...ring, ring[0]!]))
  return (
    cutLineAt(line, cuts)
      .filter(({ corners }) => within(rings, middleAlong(corners)))
      .reduce((sum, { fromM, toM }) => sum + toM - fromM, 0) / whole
  )
}

/** The place halfway along a line. */
export function middleAlong(line: Corners): Metres {
  const [first] = cutLineAt(line, [lineLengthM(line) / 2])
  return first?.corners.at(-1) ?? line[0]!
}
