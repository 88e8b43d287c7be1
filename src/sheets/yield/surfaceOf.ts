import type { Surface } from '../../map/farmMap.ts'
import type { Yielded } from '../state/door.ts'
import { amountRamp, spanRamp } from './rampOf.ts'

/** Standard scores are drawn on the ramp about par: 3 either way are its ends. */
const ENDS_Z = 3

/** Ground by its index, by an amount from nothing, or by what is nowhere nothing. */
export function cellSurface(
  pieces: Surface['pieces'],
  shown: 'par' | 'amount' | 'span',
  values: Float64Array,
): Surface {
  const ramp = shown === 'par' ? ({ of: 'par' } as const) : shown === 'amount' ? amountRamp(values) : spanRamp(values)
  return { ramp, pieces, values }
}

/** Stretches of bed by how hot or cold they are. */
export const hotSurface = (pieces: Surface['pieces'], { stretches, alpha }: Pick<Yielded, 'stretches' | 'alpha'>) => ({
  ramp: { of: 'par' } as const,
  pieces,
  values: stretches.map(({ properties: { standing } }) => heat(standing, alpha)),
})

/** A stretch's place on the ramp: where chance alone would put it, par; NaN where too little is known. */
function heat(standing: { readonly z: number; readonly q: number } | null, alpha: number): number {
  if (!standing) return Number.NaN
  if (standing.q > alpha) return 1
  return 1 + Math.max(-ENDS_Z, Math.min(ENDS_Z, standing.z)) / (2 * ENDS_Z)
}
