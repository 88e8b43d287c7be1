import { computed } from '@preact/signals'
import type { Ramp, Surface, Zones } from '../../map/farmMap.ts'
import { choose } from '../state/chosen.ts'
import type { Yielded } from '../state/door.ts'
import { showPane } from '../state/pane.ts'
import { chosenZone, type YieldShown, yielded, yieldShown } from '../state/yields.ts'

/** Standard scores are drawn on the ramp about par: 3 either way are its ends. */
const ENDS_Z = 3

/** The surface as the map draws it. */
export const surface = computed<Surface | null>(() =>
  yielded.value ? surfaceOf(yielded.value, yieldShown.value) : null,
)

export const zones = computed<Zones | null>(() =>
  yielded.value
    ? {
        type: 'FeatureCollection',
        features: yielded.value.zones.map(({ id, outline }) => ({
          type: 'Feature',
          geometry: outline,
          properties: { id },
        })),
      }
    : null,
)

export function chooseZone(id: string | null): void {
  chosenZone.value = id
  if (id === null) return
  void choose(null)
  showPane('table')
}

/** The ramp that a surface is drawn in: density up to the 98th percentile, so that one rich cell does not darken the rest. */
export function rampOf(view: Yielded, shown: YieldShown): Ramp {
  if (shown !== 'density') return { of: 'par' }
  const picked = view.cells.map(({ properties }) => properties.kgPerM2).filter((density) => density > 0)
  const sorted = picked.sort((a, b) => a - b)
  const high = sorted[Math.floor((sorted.length - 1) * 0.98)] ?? 1
  return { of: 'amount', most: roundUp(high) }
}

/** Up to one figure that matters: 3.4 → 4, 0.62 → 0.7. */
export function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value))
  return Number((Math.ceil(value / power - 1e-9) * power).toPrecision(1))
}

export function surfaceOf(view: Yielded, shown: YieldShown): Surface {
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
