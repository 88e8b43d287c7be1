import type { Metres } from '../plane/lonLat.ts'
import { placeAlong } from './pointAlong.ts'

/** How far from a new post one that stands may be and be used for it, in metres. */
export const REUSED_WITHIN_M = 0.3

/** Posts of one part together, `atM` along their run. */
export interface PostsAt {
  readonly part: string
  readonly atM: number
  readonly count: number
}

/** Posts that stand; `part` is null where nobody told what they are. */
export interface PostsInGround {
  readonly part: string | null
  readonly at: Metres
  readonly count: number
}

/** Which posts may serve: only those of the same part, or any. */
export type Serves = 'same part' | 'any post'

/**
 * Of a run's posts, how many of each part one that stands can be used for, and those that are left to be set: within 0.3 m
 * measured along the run, and no further than that off it. Each standing post serves once, the nearest pairs first.
 */
export function postsToReuse(
  line: readonly Metres[],
  posts: readonly PostsAt[],
  standing: readonly PostsInGround[],
  serves: Serves = 'same part',
): { readonly reused: ReadonlyMap<string, number>; readonly left: readonly PostsAt[] } {
  const near = standing.map((post) => ({ ...post, ...placeAlong(line, post.at), left: post.count }))
  const wanted = posts.map((post) => ({ ...post, left: post.count }))
  const pairs = wanted
    .flatMap((post) =>
      near.flatMap((there) => {
        const apartM = Math.abs(there.atM - post.atM)
        const fits =
          (serves === 'any post' || there.part === post.part) &&
          there.offM <= REUSED_WITHIN_M &&
          apartM <= REUSED_WITHIN_M
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
  return { reused, left: wanted.flatMap(({ left, ...post }) => (left > 0 ? [{ ...post, count: left }] : [])) }
}
