import { GRAVITY } from './load/wire.ts'
import { mostAtOnce, type Run } from './run.ts'

/** Design load of a post-and-wire trellis, 7 lb a foot (Sumner, Univ. of Georgia): where no crop tells another. */
export const DESIGN_LOAD_N_PER_M = (7 * 4.4482216152605) / 0.3048

/**
 * What a run must bear on each metre: all that a season's picking of its crops has been on this farm, as if it hung at
 * once, which is on the safe side; else the published design load.
 */
export function expectedLoad(
  { held, lengthM }: Pick<Run, 'held' | 'lengthM'>,
  kgPerRowM: ReadonlyMap<string, number>,
): { readonly loadNPerM: number; readonly from: 'picks' | 'design load' } {
  if (held.length === 0 || held.some(({ crop }) => !kgPerRowM.has(crop)))
    return { loadNPerM: DESIGN_LOAD_N_PER_M, from: 'design load' }
  const kg = mostAtOnce(held, ({ crop, heldM }) => kgPerRowM.get(crop)! * heldM)
  return { loadNPerM: (kg * GRAVITY) / lengthM, from: 'picks' }
}
