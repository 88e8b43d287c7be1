import { computed } from '@preact/signals'
import type { Posts } from '../../map/farmMap.ts'
import { seen } from '../state/supports.ts'

/** Posts of the runs standing on the day, where their recipes put them: as many as their bills count. */
export const posts = computed<Posts | null>(() => {
  if (!seen.value) return null
  const recipes = new Map(seen.value.recipes.map((recipe) => [recipe.id, recipe]))
  return {
    type: 'FeatureCollection',
    features: seen.value.runs.flatMap((run) => {
      const kinds = new Map(recipes.get(run.system)?.parts.map(({ part, kind }) => [part, kind]))
      return run.posts.map(({ part, count, at }) => ({
        type: 'Feature' as const,
        geometry: { type: 'Point' as const, coordinates: [...at] },
        properties: { count, end: kinds.get(part) === 'end post' },
      }))
    }),
  }
})
