import { computed } from '@preact/signals'
import { type Plane, planeAbout } from '../../../../geo/plane/plane.ts'
import type { Walk } from '../../../../geo/track/readWalk.ts'
import { readWalk, takenWhole } from '../../../../geo/track/readWalk.ts'
import { openFarm } from '../../state/farm.ts'
import { walking } from '../../state/walking.ts'

/** The plane that a walk is reckoned in: the farm's, or about its first position where the farm has none yet. */
export const walkPlane = computed<Plane | null>(() => {
  const origin = openFarm.value?.origin
  if (origin) return planeAbout(origin)
  const first = walking.value?.events.find((event) => event.does === 'fix')
  return first?.does === 'fix' ? planeAbout([first.lon, first.lat]) : null
})

const NONE: Walk = { parts: [], holding: false, fixes: 0 }

/** The walk with what is to be left out of it. */
export const walkJudged = computed<Walk>(() => {
  const plane = walkPlane.value
  const { events = [] } = walking.value ?? {}
  // A hold may be begun before the first position comes.
  if (!plane) return { ...NONE, holding: events.at(-1)?.does === 'hold' }
  return readWalk(events, plane.toMetres)
})

/** The walk as it stands: of a track from a file, all positions where the person takes them all. */
export const walkNow = computed<Walk>(() => (walking.value?.takeAll ? takenWhole(walkJudged.value) : walkJudged.value))
