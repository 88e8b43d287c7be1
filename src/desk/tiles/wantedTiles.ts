import type { Level } from '../../../geo/photo/level.ts'

/** Smaller copies that a photo wants: from half its size on, or at its full size too. */
export interface WantedTiles {
  readonly from: 0 | 1
  /** What it lacks and how it is shown without, in words. */
  readonly why: string
}

/** Longest side of a smallest copy from which the whole photo is drawn quickly. */
const smallEnoughPx = 2048
/** How many times smaller each copy may be than the next larger one. */
const mostStep = 4.5
/** Wider rows than this are too many pixels to unpack for one tile. */
const wideRowsPx = 8192

/** What a JPEG, PNG or WebP of more than 4096 pixels a side lacks. */
export const PICTURE_LACKS: WantedTiles = {
  from: 0,
  why: 'It is larger than most devices draw in one piece. Until smaller copies are made it is shown coarser than it is, its longer side as 4096 pixels.',
}

/** What keeps a photo from being drawn quickly at every scale; null where it has what it needs. */
export function lackOf(largestFirst: readonly Level[], isTiled: boolean): WantedTiles | null {
  const full = largestFirst[0]!
  if (!isTiled && full.widthPx > wideRowsPx)
    return {
      from: 0,
      why: 'It is stored in whole rows, so that any look at it unpacks far more than is seen. Until smaller copies are made it is slow.',
    }
  const steps = largestFirst.slice(1).map((level, i) => largestFirst[i]!.widthPx / level.widthPx)
  const least = largestFirst.at(-1)!
  if (Math.max(least.widthPx, least.heightPx) > smallEnoughPx || steps.some((step) => step > mostStep))
    return {
      from: 1,
      why: 'It holds no smaller copies of itself. Until they are made it is slow, or empty, from afar.',
    }
  return null
}
