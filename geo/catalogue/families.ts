import { COMMON_MINIMUM } from './sources.ts'

const MEMORY = 'usual for the family, from memory'

/** Years before the same family may return, where its crop says nothing, with the source of each. */
const RETURN: ReadonlyMap<string, readonly [years: number, source: string]> = new Map([
  ['Solanaceae', [4, MEMORY]],
  ['Brassicaceae', [4, MEMORY]],
  ['Cucurbitaceae', [3, MEMORY]],
  ['Amaryllidaceae', [4, MEMORY]],
  ['Fabaceae', [3, MEMORY]],
  ['Apiaceae', [3, COMMON_MINIMUM]],
  ['Amaranthaceae', [3, COMMON_MINIMUM]],
  ['Asteraceae', [3, COMMON_MINIMUM]],
])

/** Older and everyday names of families (APG IV; the alternative names are allowed by the ICN, article 18.5). */
const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['cruciferae', 'Brassicaceae'],
  ['compositae', 'Asteraceae'],
  ['leguminosae', 'Fabaceae'],
  ['papilionaceae', 'Fabaceae'],
  ['umbelliferae', 'Apiaceae'],
  ['gramineae', 'Poaceae'],
  ['labiatae', 'Lamiaceae'],
  ['alliaceae', 'Amaryllidaceae'],
  ['chenopodiaceae', 'Amaranthaceae'],
  ['valerianaceae', 'Caprifoliaceae'],
  ['nightshades', 'Solanaceae'],
  ['brassicas', 'Brassicaceae'],
  ['cucurbits', 'Cucurbitaceae'],
  ['alliums', 'Amaryllidaceae'],
  ['legumes', 'Fabaceae'],
  ['grasses', 'Poaceae'],
])

/** A family by the one name that rotation compares; a name not known here stands for itself, whatever its case. */
export function familyNamed(told: string): string {
  const name = told.trim()
  const other = OTHER_NAMES.get(name.toLowerCase())
  return other ?? name.charAt(0).toUpperCase() + name.slice(1).toLowerCase()
}

/** Years before a crop's family may return: the crop's own, else its family's default, with the source; null where neither is known. */
export function returnYears(crop: {
  readonly family: string
  readonly return_years: number | null
  readonly return_source: string | null
}): readonly [years: number, source: string] | null {
  if (crop.return_years !== null)
    return [crop.return_years, crop.return_source ?? 'as the crop says; no source is kept']
  return RETURN.get(familyNamed(crop.family)) ?? null
}
