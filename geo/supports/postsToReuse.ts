import type { Metres } from '../plane/lonLat.ts'
import { placeAlong } from './pointAlong.ts'

/** How far from a new post one that stands may be and be used for it, in metres. */
export const REUSED_WITHIN_M = 0.3

/**
 * Of the new posts, how many of each part one that stands can be used for: of the same part, within 0.3 m measured along
 * the new run, and no further than that off it. Each standing post serves once, the nearest pairs first.
 */
export function postsToReuse(
  line: readonly Metres[],
  posts: readonly { readonly part: string; readonly atM: number; readonly count: number }[],
  standing: readonly { readonly part: string; readonly at: Metres; readonly count: number }[],
): ReadonlyMap<string, number> {
  const near = standing.map((post) => ({ ...post, ...placeAlong(line, post.at), left: post.count }))
  const wanted = posts.map((post) => ({ ...post, left: post.count }))
  const pairs = wanted
    .flatMap((post) =>
      near.flatMap((there) => {
        const apartM = Math.abs(there.atM - post.atM)
        const fits = there.part === post.part && there.offM <= REUSED_WITHIN_M && apartM <= REUSED_WITHIN_M
        return fits ? [{ post, there, apartM: Math.hypot(apartM, there.offM) }] : []
      }),
    )
    .sort((a, b) => a.apartM - b.apartM)
  const reused = new Map<string, number>()
  for (const { post, there } of pairs) {
    const count = Math.min(post.left, there.left)
    if (count <= 0) continue
    post.left -= count
    there.left -= count
    reused.set(post.part, (reused.get(post.part) ?? 0) + count)
  }
  return reused
}
