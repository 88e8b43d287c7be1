import type { Farm } from '../model/farm.ts'
import type { Kind } from '../model/kind.ts'
import { KINDS, kindNamed } from '../model/kinds.ts'
import { blankDraft, type Draft, type Fault } from './archive.ts'
import type { Brought } from './driver.ts'
import { gatherFaults } from './faults.ts'
import { judge } from './readArchive.ts'
import { type NumberedFeature, readCollection, readFeature } from './readFeatures.ts'
import { OWN_KIND } from './writeGeoJson.ts'

const FILE = 'GeoJSON'
const SPATIAL = KINDS.filter((kind) => kind.shapes)

/**
 * Fields, beds, rows, trees and whatever else has a geometry, from one FeatureCollection. The property `kind` says what a
 * feature is; without it that is told from its geometry and properties where they leave no doubt. What is left out or
 * made up (ids, names, support systems) is noted.
 */
export function readGeoJson(bytes: Uint8Array): Brought {
  const faults = gatherFaults()
  const notes: Fault[] = []
  const features = readCollection(FILE, bytes, faults)
  if (!features) return { content: null, notes: faults.all() }
  const drafts: Draft[] = []
  const systems = new Set<string>()
  for (const one of features) {
    const note = (field: string, reason: string) =>
      notes.push({ file: FILE, record: `feature ${one.n}`, field, reason })
    const kind = kindOf(one.feature)
    if (!kind) {
      note('kind', `is left out: say what it is by a property kind (${SPATIAL.map((k) => k.name).join(', ')})`)
      continue
    }
    const draft = readFeature(kind, { n: one.n, feature: completed(kind, one, note) }, faults)
    drafts.push(draft)
    if (kind.name === 'supports' && typeof draft.record.system === 'string') systems.add(draft.record.system)
  }
  for (const id of systems) {
    drafts.push(madeSystem(id))
    notes.push({
      file: FILE,
      record: '',
      field: 'system',
      reason: `the support system ${JSON.stringify(id)} was made by its name`,
    })
  }
  drafts.sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind))
  const farm: Farm = {
    id: 'farm',
    name: 'Farm from GeoJSON',
    origin_lon: null,
    origin_lat: null,
    timezone: null,
    units: 'metric',
    currency: null,
    season_start_month: 1,
    extra: {},
  }
  const { content, leftOut, faults: found } = judge(drafts, farm, new Set(), new Map(), faults)
  const told = new Set(found)
  const all = [...notes, ...found, ...leftOut.filter((one) => !told.has(one))]
  return { content, notes: all.map((one) => ({ ...one, file: FILE })) }
}

function propertiesIn(feature: unknown): Record<string, unknown> {
  const properties = (feature as { properties?: unknown } | null)?.properties
  return typeof properties === 'object' && properties !== null ? (properties as Record<string, unknown>) : {}
}

/** Which kind of record a feature is, by its property `kind`, else by what only one kind has. */
function kindOf(feature: unknown): Kind | null {
  const told = propertiesIn(feature)
  const named = SPATIAL.find((kind) => kind.name === told.kind)
  if (named) return named
  const shape = (feature as { geometry?: { type?: unknown } } | null)?.geometry?.type
  const area = shape === 'Polygon' || shape === 'MultiPolygon'
  if (area && has(told, 'field')) return kindNamed('beds')
  if (shape === 'LineString' && has(told, 'bed')) return kindNamed('rows')
  if (shape === 'LineString' && has(told, 'system')) return kindNamed('supports')
  if (shape === 'Point' && has(told, 'species')) return kindNamed('trees')
  return area && has(told, 'name') && !has(told, 'kind') ? kindNamed('fields') : null
}

function has(told: Readonly<Record<string, unknown>>, name: string): boolean {
  return Object.hasOwn(told, name) && told[name] !== null && told[name] !== ''
}

/** The feature with `kind` as the record has it, and with an id and a name where it has none. */
function completed(
  kind: Kind,
  { n, feature }: NumberedFeature,
  note: (field: string, reason: string) => void,
): unknown {
  const { [OWN_KIND]: own, kind: _, ...told } = propertiesIn(feature)
  const outerId = (feature as { id?: unknown }).id
  const properties: Record<string, unknown> = { ...told }
  if (kind.fields.kind) properties.kind = own
  else if (own !== undefined) properties[OWN_KIND] = own
  if (!has(properties, 'id')) {
    const id = typeof outerId === 'string' || typeof outerId === 'number' ? String(outerId) : ''
    properties.id = id || `${kind.name}-${n}`
    if (!id) note('id', `has no id and was given ${JSON.stringify(properties.id)}`)
  }
  if (kind.fields.name?.required && !has(properties, 'name')) {
    properties.name = properties.id
    note('name', `has no name and was given its id`)
  }
  return { ...(feature as object), properties }
}

function madeSystem(id: string): Draft {
  const draft = blankDraft(kindNamed('systems'), `system ${id}`, id)
  draft.record.name = id
  return draft
}
