import type { Surface } from '../../map/farmMap.ts'
import type { Yielded } from '../state/door.ts'
import { rampOf, type YieldShown } from './rampOf.ts'

/** Standard scores are drawn on the ramp about par: 3 either way are its ends. */
const ENDS_Z = 3

/** A season's yield as the map draws it. */
export function surfaceOf(view: Pick<Yielded, 'cells' | 'stretches' | 'alpha'>, shown: YieldShown): Surface {
  const features =
    shown === 'hot'
      ? view.stretches.map(({ geometry, properties: { standing } }) => ({
          geometry,
          value: heat(standing, view.alpha),
        }))
      : view.cells.map(({ geometry, properties }) => ({
          geometry,
          value: shown === 'index' ? properties.index : properties.kgPerM2,
        }))
  return {
    ramp: rampOf(view, shown),
    pieces: {
      type: 'FeatureCollection',
      features: features.map(({ geometry, value }) => ({ type: 'Feature', geometry, properties: { value } })),
    },
  }
}

/** A stretch's place on the ramp: where chance alone would put it, par. */
function heat(standing: { readonly z: number; readonly q: number } | null, alpha: number): number | null {
  if (!standing) return null
  if (standing.q > alpha) return 1
  return 1 + Math.max(-ENDS_Z, Math.min(ENDS_Z, standing.z)) / (2 * ENDS_Z)
}
