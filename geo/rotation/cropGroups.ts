import { familyNamed } from '../catalogue/families.ts'
import type { Ground } from '../growing/ground.ts'
import { growingSeason } from '../growing/growingSeason.ts'
import { lineLengthM, type Stand, standsOf } from '../growing/stand.ts'
import { stays } from '../growing/standsInto.ts'

/** What grows together in beds of a season, and is moved on as one: beds that hold the same families, and climb or don't. */
export interface CropGroup {
  readonly name: string
  /** In the order of their names. */
  readonly families: readonly string[]
  readonly crops: readonly string[]
  readonly climbs: boolean
  /** A crop of it is sensitive to juglone. */
  readonly sensitive: boolean
  /** Beds that hold it, in the farm's order, and their lengths together. */
  readonly beds: readonly string[]
  readonly needM: number
}

/** What stands in each bed in a season and is cleared in it or with it, by bed. */
export function standsIn(ground: Ground, season: number): Map<string, Stand[]> {
  const found = new Map<string, Stand[]>()
  for (const stand of standsOf(ground)) {
    const { set_out: setOut, cleared } = stand.planting
    if (cleared === setOut || stays(stand)) continue
    if (growingSeason(setOut, cleared, ground.seasonStartMonth) !== season) continue
    found.set(stand.bed, [...(found.get(stand.bed) ?? []), stand])
  }
  return found
}

/** The groups of a season, of the beds that are in the rotation, the longest first. */
export function cropGroups(ground: Ground, season: number, beds: ReadonlySet<string>): CropGroup[] {
  const stands = standsIn(ground, season)
  const groups = new Map<string, { stands: Stand[]; beds: string[] }>()
  for (const bed of ground.beds.keys()) {
    const here = stands.get(bed)
    if (!here || !beds.has(bed)) continue
    const key = [...familiesOf(here), String(climbs(here))].join('\n')
    const group = groups.get(key) ?? { stands: [], beds: [] }
    group.stands.push(...here)
    group.beds.push(bed)
    groups.set(key, group)
  }
  const all = [...groups.values()].map((group): CropGroup => {
    const families = familiesOf(group.stands)
    return {
      name: families.join(' + '),
      families,
      crops: [...new Set(group.stands.map(({ crop }) => crop.name))].sort((a, b) => a.localeCompare(b)),
      climbs: climbs(group.stands),
      sensitive: group.stands.some(({ crop }) => crop.juglone === 'sensitive'),
      beds: group.beds,
      needM: group.beds.reduce((sum, bed) => sum + lineLengthM(ground.beds.get(bed)!.middle), 0),
    }
  })
  // Two groups of the same families differ in whether they climb.
  return all
    .map((group) => {
      const twin = all.some((other) => other !== group && other.name === group.name)
      return twin && group.climbs ? { ...group, name: `${group.name}, climbing` } : group
    })
    .sort((a, b) => b.needM - a.needM)
}

const familiesOf = (stands: readonly Stand[]): string[] =>
  [...new Set(stands.map(({ crop }) => familyNamed(crop.family)))].sort((a, b) => a.localeCompare(b))

const climbs = (stands: readonly Stand[]): boolean => stands.some(({ crop }) => crop.climbs === true)
