import type { Metres } from '../../geo/plane/lonLat.ts'

/** The least rectangle about some corners: its longer side, its shorter, and the longer's direction from the plane's north, clockwise, 0 to below 180. */
export interface LeastRectangle {
  readonly lengthM: number
  readonly widthM: number
  readonly bearingDeg: number
}

const cross = (o: Metres, a: Metres, b: Metres) => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])

/** Convex hull by Andrew's monotone chain, counterclockwise. */
function hull(points: readonly Metres[]): Metres[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (ordered: readonly Metres[]) => {
    const chain: Metres[] = []
    for (const p of ordered) {
      while (chain.length > 1 && cross(chain.at(-2)!, chain.at(-1)!, p) <= 0) chain.pop()
      chain.push(p)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

/** The rectangle of least area about the corners, as PostGIS' ST_OrientedEnvelope: one of its sides lies along the hull. Null where they lie on one line. */
export function leastRectangle(corners: readonly Metres[]): LeastRectangle | null {
  const ring = hull(corners)
  let best: LeastRectangle | null = null
  let least = Number.POSITIVE_INFINITY
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!
    const size = Math.hypot(b[0] - a[0], b[1] - a[1])
    if (size === 0) return
    const [ux, uy] = [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
    const along = ring.map((p) => (p[0] - a[0]) * ux + (p[1] - a[1]) * uy)
    const across = ring.map((p) => (p[1] - a[1]) * ux - (p[0] - a[0]) * uy)
    const s = Math.max(...along) - Math.min(...along)
    const t = Math.max(...across) - Math.min(...across)
    if (s * t >= least * (1 - 1e-12)) return
    least = s * t
    best =
      s >= t
        ? { lengthM: s, widthM: t, bearingDeg: bearingDeg([ux, uy]) }
        : { lengthM: t, widthM: s, bearingDeg: bearingDeg([-uy, ux]) }
  })
  return least > 0 && Number.isFinite(least) ? best : null
}

/** A direction's angle from north, clockwise, told the same for both ways along it: 0 to below 180. */
export function bearingDeg([eastM, northM]: Metres): number {
  const deg = (Math.atan2(eastM, northM) * 180) / Math.PI
  const half = ((deg % 180) + 180) % 180
  return half === 180 ? 0 : half
}
