import type { Placing } from './readPlacing.ts'

/** What to do next, in words. */
export function hintOf({ marks }: Placing): string {
  const number = (half: 'spot' | 'place') => marks.findIndex((mark) => mark[half] === null) + 1
  const [noSpot, noPlace] = [number('spot'), number('place')]
  if (noSpot > 0) return `Now click the spot of point ${noSpot} in the picture.`
  if (noPlace > 0)
    return `Click where point ${noPlace} lies on the map, or type it below. For a taped distance, click its other end in the picture.`
  if (marks.length === 0)
    return 'Click a spot in the picture that you can find again: a post, the corner of a shed, a crossing of paths.'
  return 'Click another spot in the picture, or drag a point to better it. A spare point or two shows how good the fit is.'
}
