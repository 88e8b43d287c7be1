import type { Metres } from '../plane/lonLat.ts'
import type { Caster } from './caster.ts'
import type { SunRay } from './isShaded.ts'

/** Corners of the ellipse that a crown's shadow is drawn with. */
const CORNERS = 48

/** The outline of a caster's shadow on the flat ground, not closed: length = height / tan(altitude), away from the sun. */
export function shadowOf(caster: Caster, { east, north, rise }: SunRay): Metres[] {
  const away = (by: number, [x, y]: Metres): Metres => [x - east * by, y - north * by]
  if (caster.shape === 'wall') {
    const { from, to, heightM } = caster
    return [from, to, away(heightM / rise, to), away(heightM / rise, from)]
  }
  const { at, radiusM, lowM, highM } = caster
  const half = (highM - lowM) / 2
  const [cx, cy] = away((lowM + highM) / 2 / rise, at)
  // Along the sun's way the ellipsoid's shadow reaches √(r² + (half/tan a)²) to both sides, across it r.
  const along = Math.hypot(radiusM, half / rise)
  return Array.from({ length: CORNERS }, (_, n) => {
    const turn = (2 * Math.PI * n) / CORNERS
    const [a, b] = [along * Math.cos(turn), radiusM * Math.sin(turn)]
    return [cx - east * a + north * b, cy - north * a - east * b]
  })
}
