import { familyNamed, returnYears } from '../../catalogue/families.ts'
import { growingSeason, lastSeason } from '../growingSeason.ts'
import { sharedGround } from '../shares.ts'
import type { Stand } from '../stand.ts'
import type { FamilyBack } from './warning.ts'

/**
 * Whether a planting's family is back too soon: it stood on some of the same ground before and was cleared by the day of
 * setting out, and fewer seasons lie from the last it stood in to the one now grown in than the crop asks for, or else
 * its family. Of several, the one that was cleared last is told. `others`: what stands and stood in the same bed.
 */
export function familyBack(stand: Stand, others: readonly Stand[], startMonth: number): FamilyBack | null {
  const asked = returnYears(stand.crop)
  if (!asked || asked[0] === 0) return null
  const family = familyNamed(stand.crop.family)
  const { id, set_out, cleared } = stand.planting
  const season = growingSeason(set_out, cleared, startMonth)
  let found: { warning: FamilyBack; cleared: string } | null = null
  for (const other of others) {
    const before = other.planting
    if (before.id === id || before.cleared === null || before.cleared > set_out) continue
    if (familyNamed(other.crop.family) !== family) continue
    const stoodInSeason = lastSeason(before.set_out, before.cleared, startMonth)
    if (season - stoodInSeason >= asked[0] || (found && found.cleared >= before.cleared)) continue
    const shared = sharedGround(stand, other)
    if (!shared) continue
    found = {
      cleared: before.cleared,
      warning: {
        kind: 'family back',
        planting: id,
        bed: stand.bed,
        source: asked[1],
        other: { planting: before.id, crop: other.crop.name, variety: other.variety },
        family,
        shared,
        stoodInSeason,
        season,
        returnYears: asked[0],
      },
    }
  }
  return found?.warning ?? null
}
