import { lineLengthM } from './measureShape.ts'
import { within } from './ops/cutRing.ts'
import { splitArea } from './ops/splitArea.ts'
import { crossingsM, cutLineAt } from './ops/splitLine.ts'
import { crossesItself, problemOf } from './problemOf.ts'
import type { Drawn, Problem } from './session.ts'
import { type Corners, isArea, polygonsOf, type Shape } from './shape.ts'

/** Why what is drawn can't be kept where it is drawn upon something: a hole must lie in its ground, a cut must divide it. */
export function problemIn(what: Drawn, shape: Shape, of: Shape | null): Problem | null {
  const plain = problemOf(shape)
  if (plain || !of) return plain
  if (what === 'hole') return holeLies(of, shape.parts[0]!) ? null : 'leaves its ground'
  if (what === 'cut') return divides(of, shape.parts[0]!) ? null : 'cuts nothing'
  return null
}

/** Whether a ring lies within one of an area's polygons and crosses none of its rings. */
function holeLies(of: Shape, hole: Corners): boolean {
  return polygonsOf(of).some((rings) => hole.every((at) => within(rings, at)) && !crossesItself([...rings, hole]))
}

/** Whether a cut divides what it is drawn across. */
export function divides(of: Shape, cut: Corners): boolean {
  if (isArea(of)) return polygonsOf(of).some((rings) => splitArea(rings, cut).length > 1)
  const line = of.parts[0] ?? []
  return lineLengthM(line) > 0 && cutLineAt(line, crossingsM(line, cut)).length > 1
}
