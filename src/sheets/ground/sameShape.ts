import { positionsOf } from '../../../geo/plane/geometry.ts'
import type { EditGeometry } from '../../draw/session.ts'

/** About a tenth of a millimetre: what going through the plane and back may move a corner. */
const WITHIN_DEG = 1e-9

/** True where two shapes have the same corners in the same order. */
export function sameShape(one: EditGeometry, other: EditGeometry): boolean {
  const [a, b] = [[...positionsOf(one)], [...positionsOf(other)]]
  return (
    one.type === other.type &&
    a.length === b.length &&
    a.every((at, n) => at.every((value, axis) => Math.abs(value - (b[n]![axis] ?? Number.NaN)) <= WITHIN_DEG))
  )
}
