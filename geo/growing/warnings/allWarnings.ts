import { HELD_WITHIN_M } from '../../measure/held.ts'
import { boxOf } from '../../plane/box.ts'
import type { Ground } from '../ground.ts'
import { type Stand, standsOf } from '../stand.ts'
import { supportsNear } from '../supportsNear.ts'
import { claims } from './claims.ts'
import { familyBack } from './familyBack.ts'
import { manureIntervals } from './manureInterval.ts'
import { nearWalnuts } from './nearWalnut.ts'
import { tooDense } from './tooDense.ts'
import { unheld } from './unheld.ts'
import type { Warning } from './warning.ts'

/** Every warning of a farm's plantings, as on a day, in the order of the plantings; or of some of them. What was cleared on the day it was set out never stood. */
export function allWarnings(ground: Ground, on: string, only: (stand: Stand) => boolean = () => true): Warning[] {
  const stands = standsOf(ground).filter(({ planting }) => planting.cleared !== planting.set_out)
  const along = supportsNear(ground.supports, HELD_WITHIN_M)
  const byBed = new Map<string, Stand[]>()
  for (const stand of stands) byBed.set(stand.bed, [...(byBed.get(stand.bed) ?? []), stand])
  return stands.filter(only).flatMap((stand): Warning[] => {
    const inBed = byBed.get(stand.bed)!
    return [
      ...claims(stand, inBed),
      ...one(familyBack(stand, inBed, ground.seasonStartMonth)),
      ...nearWalnuts(stand, ground.sources),
      ...one(tooDense(stand)),
      ...one(unheld(stand, stand.crop.climbs ? along(boxOf(stand.line)) : [], on)),
      ...manureIntervals(stand, ground),
    ]
  })
}

const one = <T>(found: T | null): T[] => (found === null ? [] : [found])
