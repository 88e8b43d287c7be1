import type { At, Box } from '../marks.ts'

/** The part of a ring that lies in a box (Sutherland and Hodgman 1974); empty where none does. */
export function clipRing(ring: readonly At[], { xMm, yMm, wideMm, highMm }: Box): readonly At[] {
  const sides = [
    [0, xMm, 1],
    [0, xMm + wideMm, -1],
    [1, yMm, 1],
    [1, yMm + highMm, -1],
  ] as const
  let left = ring
  for (const [axis, limit, sign] of sides) {
    const inside = (at: At) => sign * (at[axis] - limit) >= 0
    left = left.flatMap((to, i): readonly At[] => {
      const from = left[(i + left.length - 1) % left.length]!
      if (inside(from) === inside(to)) return inside(to) ? [to] : []
      const share = (limit - from[axis]) / (to[axis] - from[axis])
      const cut: At = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
      return inside(to) ? [cut, to] : [cut]
    })
  }
  return left
}
