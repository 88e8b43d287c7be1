import { cornerStep, groundMPerUnit, type MercatorXY, mercatorOf } from './mercator.ts'
import { pixelGround } from './pixelGround.ts'
import type { PhotoCorners, PlacedPixels } from './placement.ts'

type Quad = readonly [MercatorXY, MercatorXY, MercatorXY, MercatorXY]

/**
 * The projective map of the unit square onto four corners, as MapLibre draws an image source whose corners are no
 * parallelogram (Heckbert 1989, section 2.2.3; it is the affine one where they are).
 */
const projective = ([a, b, c, d]: Quad): ((u: number, v: number) => MercatorXY) => {
  const sumX = a[0] - b[0] + c[0] - d[0]
  const sumY = a[1] - b[1] + c[1] - d[1]
  const [rightX, rightY] = [b[0] - c[0], b[1] - c[1]]
  const [downX, downY] = [d[0] - c[0], d[1] - c[1]]
  const det = rightX * downY - rightY * downX
  const p = (sumX * downY - downX * sumY) / det
  const q = (rightX * sumY - sumX * rightY) / det
  return (u, v) => {
    const w = p * u + q * v + 1
    const along = (i: 0 | 1): number => ((b[i] - a[i] + p * b[i]) * u + (d[i] - a[i] + q * d[i]) * v + a[i]) / w
    return [along(0), along(1)]
  }
}

const sidesTried = 16

/**
 * How far, in ground metres, any part of a photo lies from its true place when MapLibre draws it as an image through
 * its four corners. Two things add up: the corners are rounded to a step of some 1/8192 to 2/8192 of the photo's size,
 * and the straight quad cannot follow the bend of the photo's grid on the map.
 *
 * Measured for square photos in UTM, anywhere in a zone, worst of many places: the bend alone comes to 0.01 m (500 m
 * photo) and 0.04 m (1 km) at 45°, 0.03 m and 0.11 m at 70°; the rounding is the greater part, and with it the error
 * comes to 0.08 m (500 m), 0.2 m (1 km), 0.4 m (2 km) at 45°.
 */
export const drawnErrorM = (photo: PlacedPixels, corners: PhotoCorners): number => {
  const [a, b, c, d] = corners.map(mercatorOf) as unknown as Quad
  const xs = [a[0], b[0], c[0], d[0]]
  const ys = [a[1], b[1], c[1], d[1]]
  const step = cornerStep(Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)))
  const snap = ([x, y]: MercatorXY): MercatorXY => [Math.round(x / step) * step, Math.round(y / step) * step]
  const drawn = projective([snap(a), snap(b), snap(c), snap(d)])
  const ground = pixelGround(photo)
  let worst = 0
  for (let i = 0; i <= sidesTried; i += 1)
    for (let j = 0; j <= sidesTried; j += 1) {
      const [u, v] = [i / sidesTried, j / sidesTried]
      const at = ground.lonLatOf(u * photo.widthPx, v * photo.heightPx)
      const [trueX, trueY] = mercatorOf(at)
      const [x, y] = drawn(u, v)
      worst = Math.max(worst, Math.hypot(x - trueX, y - trueY) * groundMPerUnit(at[1]))
    }
  return worst
}
