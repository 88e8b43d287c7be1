import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Shape } from '../shape.ts'

export type Place = (at: Metres) => Metres

/** A turn about a place and then a shift; `turnDeg` clockwise, as bearings are told. */
export interface Motion {
  readonly about: Metres
  readonly turnDeg: number
  readonly by: Metres
}

/** Where a motion takes a place. No turn is exact: only the shift is added. */
export function motion({ about, turnDeg, by }: Motion): Place {
  if (turnDeg % 360 === 0) return ([x, y]) => [x + by[0], y + by[1]]
  const a = (turnDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(a), Math.sin(a)]
  return ([x, y]) => {
    const [dx, dy] = [x - about[0], y - about[1]]
    return [about[0] + dx * cos + dy * sin + by[0], about[1] - dx * sin + dy * cos + by[1]]
  }
}

/** A shape with every corner put where `to` says. */
export const placed = <S extends Shape>(shape: S, to: Place): S =>
  ({ ...shape, parts: shape.parts.map((part) => part.map(to)) }) as unknown as S

/** The middle of the box about some corners: what a turn is about unless another place is said. */
export function middleOf(corners: readonly Metres[]): Metres {
  const [xs, ys] = [corners.map((p) => p[0]), corners.map((p) => p[1])]
  const half = (all: readonly number[]) =>
    (all.reduce((a, b) => Math.min(a, b), Infinity) + all.reduce((a, b) => Math.max(a, b), -Infinity)) / 2
  return corners.length === 0 ? [0, 0] : [half(xs), half(ys)]
}
