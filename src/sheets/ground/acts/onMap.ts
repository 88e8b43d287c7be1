import { useEffect } from 'preact/hooks'
import { type Plane, planeAbout } from '../../../../geo/plane/plane.ts'
import type { PlacedThing } from '../../../draw/session.ts'
import { session } from '../../state/drawing.ts'
import { openFarm } from '../../state/farm.ts'

/** The farm's plane; things stand, so it has one. */
export function farmPlane(): Plane {
  const origin = openFarm.value?.origin
  if (!origin) throw new Error('things stand on a farm without a plane')
  return planeAbout(origin)
}

/** Shows things on the map as they would become, as long as it is asked. */
export function usePreview(things: readonly PlacedThing[], faulty: boolean): void {
  const now = session.value
  const told = JSON.stringify(things.map(({ geometry }) => geometry))
  useEffect(() => now?.preview(things, faulty), [now, told, faulty])
}
