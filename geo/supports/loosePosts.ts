import type { Database } from '../store/database.ts'
import type { PostsInGround } from './postsToReuse.ts'

/** Posts that stand by themselves: structures drawn as a point whose kind says post, pole or stake. */
export async function loosePosts(db: Database): Promise<PostsInGround[]> {
  const rows = await db.rows<{ x: number; y: number }>(
    `select st_x(plan) as x, st_y(plan) as y from structures
     where geometrytype(plan) = 'POINT' and kind ~* '\\m(post|pole|stake)s?\\M' order by ord`,
  )
  return rows.map(({ x, y }) => ({ part: null, at: [x, y], count: 1 }))
}
