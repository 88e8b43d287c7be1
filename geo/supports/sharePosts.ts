import { pointAlong } from './pointAlong.ts'
import { type PostsAt, type PostsInGround, postsToReuse } from './postsToReuse.ts'
import type { Recipe } from './recipe.ts'
import { plantsOf, type Run } from './run.ts'
import { postsOf } from './runBill.ts'

/** The posts of a run that stands: those set for it, and those that stood before and serve it. */
export interface PostsOfRun {
  readonly own: readonly PostsAt[]
  /** Of each part, how many that stood already serve. */
  readonly there: Readonly<Record<string, number>>
  /** How many would serve, by which may. */
  readonly wouldServe: { readonly samePart: number; readonly anyPost: number }
}

/**
 * Posts of the runs of a day by their ids. A run put up later may use posts of those put up before it (a day not known is
 * before all others; of one day, in the order of the records) and posts that are structures of their own, as it is told.
 */
export function sharePosts(
  runs: readonly Run[],
  recipes: ReadonlyMap<string, Recipe>,
  loose: readonly PostsInGround[],
): ReadonlyMap<string, PostsOfRun> {
  const standing: PostsInGround[] = [...loose]
  const shared = new Map<string, PostsOfRun>()
  for (const run of [...runs].sort((a, b) => compare(a.putUp ?? '', b.putUp ?? ''))) {
    const recipe = recipes.get(run.system)
    if (!recipe) throw new Error(`support ${run.id} is of a system that is not there: ${run.system}`)
    const posts = run.line.length < 2 ? [] : postsOf({ ...run, plants: plantsOf(run) }, recipe)
    const [same, any] = (['same part', 'any post'] as const).map((serves) =>
      postsToReuse(run.line, posts, standing, serves),
    ) as [ReturnType<typeof postsToReuse>, ReturnType<typeof postsToReuse>]
    const used = run.reusePosts === 'same part' ? same : run.reusePosts === 'any post' ? any : null
    shared.set(run.id, {
      own: used?.left ?? posts,
      there: Object.fromEntries(used?.reused ?? []),
      wouldServe: { samePart: sum(same.reused), anyPost: sum(any.reused) },
    })
    for (const { part, atM, count } of used?.left ?? posts)
      standing.push({ part, count, at: pointAlong(run.line, atM) })
  }
  return shared
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
const sum = (counts: ReadonlyMap<string, number>) => [...counts.values()].reduce((total, count) => total + count, 0)
