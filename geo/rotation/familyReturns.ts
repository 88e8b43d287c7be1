import { familyNamed, returnYears } from '../catalogue/families.ts'
import type { Ground } from '../growing/ground.ts'
import type { CropGroup } from './cropGroups.ts'
import type { RotationAsked } from './rotationFile.ts'

/** After how many years a family may return, and where that comes from. */
export interface FamilyReturn {
  readonly family: string
  readonly years: number
  readonly source: string
}

/** Of every family of some groups: as asked, else the longest that its crops ask for. One of which nothing is known may follow itself. */
export function familyReturns(ground: Ground, groups: readonly CropGroup[], asked: RotationAsked): FamilyReturn[] {
  const names = [...new Set(groups.flatMap(({ families }) => families))].sort((a, b) => a.localeCompare(b))
  return names.map((family): FamilyReturn => {
    const own = asked.return_years[family]
    if (own !== undefined) return { family, years: own, source: 'as asked for' }
    const known = [...ground.crops.values()]
      .filter((crop) => familyNamed(crop.family) === family)
      .flatMap((crop) => {
        const told = returnYears(crop)
        return told ? [told] : []
      })
      .reduce<readonly [number, string] | null>((most, one) => (most && most[0] >= one[0] ? most : one), null)
    if (!known) return { family, years: 1, source: 'nothing is known of its return: it may follow itself' }
    return { family, years: Math.max(1, Math.ceil(known[0])), source: known[1] }
  })
}
