import type { Farm } from '../../model/farm.ts'
import type { AnyRecord, Kind } from '../../model/kind.ts'
import { kindNamed } from '../../model/kinds.ts'
import { blankDraft, type Draft, type Fault, type Reading } from '../archive.ts'
import type { Brought } from '../driver.ts'
import { gatherFaults } from '../faults.ts'
import { judge } from '../readArchive.ts'
import type { Found, FoundLayer } from './found.ts'
import { partLayers } from './partLayers.ts'
import type { LayerPlan } from './plan.ts'
import { guessPlan } from './plan.ts'
import { type TakeHow, type Taken, takeLayers } from './takeLayers.ts'

/** Layers of other programs as a reading of a farm, with the notes of taking them apart from its faults. */
export interface FoundReading {
  readonly reading: Reading
  readonly notes: readonly Fault[]
  /** Faults as people find them: by the file that the record came from, not by the archive's. */
  inTheirFile(faults: readonly Fault[]): Fault[]
  readonly taken: Taken
}

const NO_RECORDS: ReadonlyMap<string, readonly AnyRecord[]> = new Map()

/** How faults name a record that the farm has already. */
export const OF_FARM = 'a record of this farm'

/**
 * Judges layers by the same rules as an archive, beside the records that the farm has already (`how.known`; none for a farm
 * of their own).
 */
export function judgeLayers(
  planned: readonly { readonly layer: FoundLayer; readonly plan: LayerPlan }[],
  farm: Farm,
  how: TakeHow,
): FoundReading {
  const faults = gatherFaults()
  const taken = takeLayers(planned, how, faults)
  const replaced = new Set(taken.drafts.map(({ kind, record }) => `${kind.name} ${record.id}`))
  const there = [...how.known].flatMap(([name, records]) =>
    records
      .filter(({ id }) => !(how.replaces && replaced.has(`${name} ${id}`)))
      .map((record) => knownDraft(name, record)),
  )
  const drafts = [...there, ...taken.drafts]
  const judged = judge(drafts, farm, new Set(), new Map(), faults)
  const files = new Map<string, string>()
  for (const [draft, layer] of taken.from) files.set(`${draft.kind.file} ${draft.where}`, layer.file)
  return {
    reading: { ...judged, counts: {}, ignored: [] },
    notes: taken.notes,
    inTheirFile: (list) =>
      list.map((fault) => ({ ...fault, file: files.get(`${fault.file} ${fault.record}`) ?? fault.file })),
    taken,
  }
}

function knownDraft(kindName: string, record: AnyRecord): Draft {
  const draft = blankDraft(kindNamed(kindName), OF_FARM, record.id)
  return { ...draft, record: { ...record } }
}

/** Ids that say what a thing is and its number in the file: for farms of their own, and the same at each reading. */
export const plainIds = (kind: Kind, n: number): string => `${kind.name}-${n}`

/** A farm of what was found, every layer taken for what it most likely is. */
export function planFound(found: Found, farmName: string): FoundReading {
  const planned = partLayers(found.layers).map((layer) => ({ layer, plan: guessPlan(layer) }))
  return judgeLayers(planned, newFarm(farmName), {
    known: NO_RECORDS,
    newId: plainIds,
    tellMade: true,
    replaces: false,
  })
}

/** The same as what a driver gives; null where the file as a whole could not be read. */
export function readFound(found: Found, farmName: string): Brought {
  if (found.layers.length === 0) return { content: null, notes: found.notes }
  const { reading, notes, inTheirFile } = planFound(found, farmName)
  const told = new Set(reading.faults)
  const left = reading.leftOut.filter((one) => !told.has(one))
  return { content: reading.content, notes: [...found.notes, ...notes, ...inTheirFile([...reading.faults, ...left])] }
}

export function newFarm(name: string): Farm {
  return {
    id: 'farm',
    name,
    origin_lon: null,
    origin_lat: null,
    timezone: null,
    units: 'metric',
    currency: null,
    season_start_month: 1,
    extra: {},
  }
}
