import { familyNamed, returnYears } from '../catalogue/families.ts'
import type { Database } from '../store/database.ts'
import { growingSeason } from './growingSeason.ts'

/** A family that climbs on the farm: metres of planted row by season, and after how many years it may come back. */
export interface ClimbedFamily {
  readonly family: string
  readonly seasons: readonly { readonly season: number; readonly metres: number }[]
  /** The longest of what its climbing crops say (else the family's usual), with where it comes from; null where nothing is known. */
  readonly returnYears: readonly [years: number, source: string] | null
}

/** Metres of climbing plantings by family and the season that they grow in, the latest season first; families by name. */
export async function climbedBySeason(db: Database, startMonth: number): Promise<ClimbedFamily[]> {
  const stretches = await db.rows<{
    family: string
    return_years: number | null
    return_source: string | null
    set_out: string
    cleared: string | null
    length_m: number
  }>(
    `select c.family, c.return_years, c.return_source, s.set_out, s.cleared, st_length(s.plan) as length_m
     from stretches s join crops c on c.id = s.crop where s.climbs and s.set_out is not null and s.plan is not null`,
  )
  const found = new Map<string, { seasons: Map<number, number>; back: readonly [number, string] | null }>()
  for (const one of stretches) {
    const name = familyNamed(one.family)
    const family = found.get(name) ?? { seasons: new Map<number, number>(), back: null }
    found.set(name, family)
    const season = growingSeason(one.set_out, one.cleared, startMonth)
    family.seasons.set(season, (family.seasons.get(season) ?? 0) + one.length_m)
    const back = returnYears(one)
    if (back && (family.back === null || back[0] > family.back[0])) family.back = back
  }
  return [...found]
    .map(([family, { seasons, back }]) => ({
      family,
      seasons: [...seasons].map(([season, metres]) => ({ season, metres })).sort((a, b) => b.season - a.season),
      returnYears: back,
    }))
    .sort((a, b) => a.family.localeCompare(b.family))
}
