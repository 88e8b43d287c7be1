import type { Metres } from '../../geo/plane/lonLat.ts'
import { distanceM } from './measureShape.ts'
import type { OverlayPicture, Pixel } from './overlay.ts'

/** Sides shorter than this on the screen go without their length. */
const LEAST_PX = 46

/** The length of each side, to stand along it and read from the left. */
export function sideWords(
  sides: readonly (readonly [Metres, Metres])[],
  toPixel: (at: Metres) => Pixel,
  show: ((lengthM: number) => string) | undefined,
): OverlayPicture['words'] {
  if (!show) return []
  return sides.flatMap(([a, b]) => {
    const [[ax, ay], [bx, by]] = [toPixel(a), toPixel(b)]
    if (Math.hypot(bx - ax, by - ay) < LEAST_PX) return []
    const deg = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI
    const turnDeg = deg > 90 ? deg - 180 : deg <= -90 ? deg + 180 : deg
    return [{ at: [(ax + bx) / 2, (ay + by) / 2] as const, turnDeg, text: show(distanceM(a, b)) }]
  })
}
