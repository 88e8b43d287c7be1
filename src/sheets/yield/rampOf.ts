import type { Ramp } from '../../map/farmMap.ts'
import type { Yielded } from '../state/door.ts'

/** What the surface is coloured by. */
export type YieldShown = 'index' | 'density' | 'hot'

/** The ramp that a surface is drawn in: density up to its 98th percentile, so that one rich cell does not darken the rest. */
export function rampOf(view: Pick<Yielded, 'cells'>, shown: YieldShown): Ramp {
  if (shown !== 'density') return { of: 'par' }
  const picked = view.cells.map(({ properties }) => properties.kgPerM2).filter((density) => density > 0)
  const sorted = picked.sort((a, b) => a - b)
  return { of: 'amount', most: roundUp(sorted[Math.floor((sorted.length - 1) * 0.98)] ?? 1) }
}

/** Up to one figure that matters: 3.4 → 4, 0.62 → 0.7. */
export function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value))
  return Number((Math.ceil(value / power - 1e-9) * power).toPrecision(1))
}
