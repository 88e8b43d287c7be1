import type { Metres } from '../plane/lonLat.ts'

/** A spot in a picture, in pixels from its upper-left corner (the first pixel's centre is 0.5, 0.5). */
export type Spot = readonly [col: number, row: number]

/**
 * A projective map of the plane, row by row: x = (h0·u + h1·v + h2) / w, y = (h3·u + h4·v + h5) / w with
 * w = h6·u + h7·v + h8. It is affine where h6 = h7 = 0. From a picture to the ground, w is above zero for spots that
 * show ground and zero on the horizon.
 */
export type Homography = readonly [
  h0: number,
  h1: number,
  h2: number,
  h3: number,
  h4: number,
  h5: number,
  h6: number,
  h7: number,
  h8: number,
]

/** w of a spot: how much nearer the camera it is than others, up to a common factor; zero on the horizon. */
export const depthAt = (h: Homography, [u, v]: Spot): number => h[6] * u + h[7] * v + h[8]

/** Where a map puts a spot. */
export const mapped = (h: Homography, at: Spot): Metres => {
  const [u, v] = at
  const w = depthAt(h, at)
  return [(h[0] * u + h[1] * v + h[2]) / w, (h[3] * u + h[4] * v + h[5]) / w]
}

/** The same map with all numbers divided by one of them or by any other. */
export const scaled = (h: Homography, by: number): Homography => h.map((value) => value / by) as unknown as Homography

/** First `inner`, then `outer`. */
export const after = (outer: Homography, inner: Homography): Homography =>
  Array.from({ length: 9 }, (_, i) => {
    const [row, col] = [3 * Math.floor(i / 3), i % 3]
    return outer[row]! * inner[col]! + outer[row + 1]! * inner[col + 3]! + outer[row + 2]! * inner[col + 6]!
  }) as unknown as Homography

/** The way back, up to a common factor (the adjugate); all zero where there is none. */
export const wayBack = ([a, b, c, d, e, f, g, h, i]: Homography): Homography => [
  e * i - f * h,
  c * h - b * i,
  b * f - c * e,
  f * g - d * i,
  a * i - c * g,
  c * d - a * f,
  d * h - e * g,
  b * g - a * h,
  a * e - b * d,
]

/** Determinant of the map's slope at a spot, times w³ over w³'s own sign: below zero where the picture is not mirrored (rows run down, north runs up). */
export const turnsAt = (h: Homography, at: Spot): number => {
  const back = wayBack(h)
  const det = h[0] * back[0] + h[1] * back[3] + h[2] * back[6]
  return det / depthAt(h, at) ** 3
}
