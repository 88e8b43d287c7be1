import type { LonLat } from '../plane/lonLat.ts'
import { planeAbout } from '../plane/plane.ts'
import { pixelGround } from './pixelGround.ts'
import type { PlacedPixels } from './placement.ts'

/**
 * Side in metres of a square with the area of one pixel on the ground (the geometric mean of its two sides where they
 * are at right angles), at the photo's middle: measured in a plane about that middle, so that a grid's own scale
 * (UTM's 0.9996, Web Mercator's 1/cos φ) does not enter.
 */
export const groundSampleM = (photo: PlacedPixels): number => {
  const ground = pixelGround(photo)
  const col = photo.widthPx / 2
  const row = photo.heightPx / 2
  const middle: LonLat = ground.lonLatOf(col, row)
  const plane = planeAbout(middle)
  const acrossTo = plane.toMetres(ground.lonLatOf(col + 0.5, row))
  const acrossFrom = plane.toMetres(ground.lonLatOf(col - 0.5, row))
  const downTo = plane.toMetres(ground.lonLatOf(col, row + 0.5))
  const downFrom = plane.toMetres(ground.lonLatOf(col, row - 0.5))
  const across = [acrossTo[0] - acrossFrom[0], acrossTo[1] - acrossFrom[1]] as const
  const down = [downTo[0] - downFrom[0], downTo[1] - downFrom[1]] as const
  return Math.sqrt(Math.abs(across[0] * down[1] - across[1] * down[0]))
}
