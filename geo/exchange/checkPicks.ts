import { kgPerUnit, MASS_UNITS, type Weight } from '../model/weigh.ts'
import type { Draft } from './archive.ts'
import type { Index } from './checkReferences.ts'
import { type Faults, shown } from './faults.ts'

/** Looks at where each pick was made and what it weighs, and gives it `kg_per_unit` where its file does not. */
export function checkPicks(
  drafts: readonly Draft[],
  index: Index,
  unreadable: ReadonlySet<string>,
  faults: Faults,
): void {
  const picks = drafts.filter((draft) => draft.kind.name === 'picks')
  const containers = drafts.filter((draft) => draft.kind.name === 'containers')
  const weights = containers.filter((draft) => draft.unread.size === 0).map(({ record }) => record as unknown as Weight)
  const doubtful = new Set(containers.filter((draft) => draft.unread.size > 0).map(({ record }) => record.unit))
  for (const draft of picks) {
    checkPlace(draft, faults)
    const known = !unreadable.has('containers') && !doubtful.has(draft.record.unit)
    weigh(draft, index, weights, known ? faults : null)
  }
}

function checkPlace(draft: Draft, faults: Faults): void {
  const { record, unread } = draft
  if (['planting', 'bed', 'lon', 'lat'].some((name) => unread.has(name))) return
  const given = ['planting', 'bed', 'lon'].filter((name) => record[name] !== null)
  if (record.lon !== null && record.lat === null) faults.of(draft, 'lat', 'is missing beside lon')
  if (record.lon === null && record.lat !== null) faults.of(draft, 'lon', 'is missing beside lat')
  else if (given.length === 0)
    faults.of(draft, 'planting', 'is missing, and so are bed, lon and lat: one place must be given')
  if (given.length > 1) faults.of(draft, given[1]!, `is given beside ${given[0]}: a pick has one place`)
}

/** The crop of a pick: null where only a bed or a spot is told, undefined where the way to it is broken. */
function cropOf({ record }: Draft, index: Index): string | null | undefined {
  if (typeof record.planting !== 'string') return null
  const variety = index.get('plantings')!.get(record.planting)?.record.variety
  const crop = typeof variety === 'string' ? index.get('varieties')!.get(variety)?.record.crop : undefined
  return typeof crop === 'string' ? crop : undefined
}

/** `faults` null: what its container weighs could not be read, which is told there already. */
function weigh(draft: Draft, index: Index, weights: readonly Weight[], faults: Faults | null): void {
  const { record, unread } = draft
  if (record.kg_per_unit !== null || unread.has('kg_per_unit') || typeof record.unit !== 'string') return
  const crop = cropOf(draft, index)
  if (crop === undefined && !MASS_UNITS.has(record.unit)) return
  const kg = kgPerUnit(record.unit, crop ?? null, weights)
  if (kg !== null) record.kg_per_unit = kg
  else if (!unread.has('unit'))
    faults?.of(
      draft,
      'unit',
      `${shown(record.unit)} has no weight${forCrop(crop, index)} in containers.csv, and is none of ${[...MASS_UNITS.keys()].join(', ')}`,
    )
}

function forCrop(crop: string | null | undefined, index: Index): string {
  if (!crop) return ' for every crop'
  const name = index.get('crops')!.get(crop)?.record.name
  return ` for crop ${shown(crop)}${typeof name === 'string' && name !== crop ? ` (${name})` : ''}`
}
