import type { Farm } from '../model/farm.ts'
import { farm as farmKind } from '../model/farm.ts'
import type { AnyRecord } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import { photos as photoKind } from '../model/photos.ts'
import { kgPerUnit, type Weight } from '../model/weigh.ts'
import { lonWithin180 } from '../plane/lonLat.ts'
import {
  type ArchiveFiles,
  FARM_FILE,
  type FarmContent,
  FORMAT,
  isPlainName,
  PHOTO_FOLDER,
  VERSION,
} from './archive.ts'
import { FARM_NAMES } from './readFarm.ts'
import { propertiesOf, writeFeatures } from './writeFeatures.ts'
import { writeTable } from './writeTable.ts'

/**
 * A farm as the files of an archive, the same for the same content. What is read again gives the same records and
 * coordinates. Kinds without records have no file.
 */
export function writeArchive(content: FarmContent): ArchiveFiles {
  const encoder = new TextEncoder()
  const files = new Map<string, Uint8Array>([[FARM_FILE, encoder.encode(farmText(content.farm))]])
  for (const kind of KINDS) {
    const records = content.records.get(kind.name) ?? []
    if (records.length === 0) continue
    files.set(kind.file, encoder.encode(fileText(kind, records, content)))
  }
  for (const name of [...content.photos.keys()].sort()) {
    if (!isPlainName(name)) throw new Error(`a photo can't be written as ${JSON.stringify(name)}`)
    files.set(PHOTO_FOLDER + name, content.photos.get(name)!)
  }
  return files
}

function fileText(kind: (typeof KINDS)[number], records: readonly AnyRecord[], content: FarmContent): string {
  if (kind.shapes) return writeFeatures(kind, records)
  if (kind === photoKind)
    return `[\n${records.map((r) => JSON.stringify(Object.fromEntries(propertiesOf(kind, r)))).join(',\n')}\n]\n`
  return writeTable(kind, kind.name === 'picks' ? asTold(records, content) : records)
}

function farmText(farm: Farm): string {
  const { origin_lon: lon, origin_lat: lat } = farm
  const told: [string, unknown][] = [
    ['format', FORMAT],
    ['version', VERSION],
  ]
  for (const name of Object.keys(farmKind.fields)) {
    if (name === 'origin_lon') told.push(['origin', lon === null || lat === null ? null : [lon, lat]])
    else if (name !== 'origin_lat') told.push([FARM_NAMES[name] ?? name, (farm as unknown as AnyRecord)[name]])
  }
  const extras = Object.entries(farm.extra).sort(([a], [b]) => (a < b ? -1 : 1))
  const known = told.filter(([, value]) => value !== null && value !== undefined)
  return `${JSON.stringify(Object.fromEntries([...known, ...extras]), null, 2)}\n`
}

/** Picks with longitudes within ±180, and with their weight only where the containers don't say the same now. */
function asTold(picks: readonly AnyRecord[], content: FarmContent): AnyRecord[] {
  const weights = (content.records.get('containers') ?? []) as unknown as readonly Weight[]
  const cropOfVariety = linkOf(content, 'varieties', 'crop')
  const varietyOf = linkOf(content, 'plantings', 'variety')
  return picks.map((pick) => {
    const variety = typeof pick.planting === 'string' ? varietyOf.get(pick.planting) : undefined
    const crop = variety === undefined ? null : (cropOfVariety.get(variety) ?? null)
    const now = kgPerUnit(pick.unit as string, crop, weights)
    return {
      ...pick,
      lon: typeof pick.lon === 'number' ? lonWithin180(pick.lon) : null,
      kg_per_unit: now === pick.kg_per_unit ? null : pick.kg_per_unit,
    }
  })
}

function linkOf(content: FarmContent, kind: string, field: string): Map<string, string> {
  return new Map((content.records.get(kind) ?? []).map((record) => [record.id, record[field] as string]))
}
