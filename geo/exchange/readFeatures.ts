import type { Kind } from '../model/kind.ts'
import { blankDraft, type Draft } from './archive.ts'
import type { Faults } from './faults.ts'
import { readGeometry } from './readGeometry.ts'
import { readJson } from './readJson.ts'
import { readProperty, whyNotKept } from './readValue.ts'
import { wideDigits } from './wideNumbers.ts'

/** One member of a FeatureCollection and its number in the file, from 1. */
export interface NumberedFeature {
  readonly n: number
  readonly feature: unknown
}

/** Drafts of a GeoJSON file, or null where the file as a whole can't be read (its faults say why). */
export function readFeatureFile(kind: Kind, bytes: Uint8Array, faults: Faults): Draft[] | null {
  const features = readCollection(kind.file, bytes, faults)
  return features?.map((one) => readFeature(kind, one, faults)) ?? null
}

/** The features of a FeatureCollection (RFC 7946 §3.3), not yet looked into. */
export function readCollection(file: string, bytes: Uint8Array, faults: Faults): NumberedFeature[] | null {
  const json = readJson(file, bytes, faults)
  if (!json) return null
  const { type, features, crs } = (json.value ?? {}) as { type?: unknown; features?: unknown; crs?: unknown }
  if (type !== 'FeatureCollection' || !Array.isArray(features)) {
    faults.ofFile(file, 'is not a GeoJSON FeatureCollection')
    return null
  }
  const other = foreignReference(crs)
  if (other) {
    faults.ofFile(file, `is in ${other}; GeoJSON is lon/lat in WGS 84 (RFC 7946 §4)`, '', 'crs')
    return null
  }
  return features.map((feature, i) => ({ n: i + 1, feature }))
}

/** The name of a reference system other than lon/lat, from the `crs` member of older GeoJSON. */
function foreignReference(crs: unknown): string | null {
  const name = (crs as { properties?: { name?: unknown } } | null | undefined)?.properties?.name
  if (typeof name !== 'string' || /(?:CRS84|EPSG:+4326)$/i.test(name)) return null
  return name
}

/** The record of one feature. `id` is the property's, else the feature's own. */
export function readFeature(kind: Kind, { n, feature }: NumberedFeature, faults: Faults): Draft {
  const isFeature =
    typeof feature === 'object' && feature !== null && (feature as { type?: unknown }).type === 'Feature'
  const { id: outerId, geometry, properties } = (isFeature ? feature : {}) as Record<string, unknown>
  const known = typeof properties === 'object' && properties !== null && !Array.isArray(properties)
  const told = new Map(Object.entries(known ? properties : {}))
  const id = idText(told.get('id')) ?? idText(outerId)
  const where = id ? `feature ${n} (${id})` : `feature ${n}`
  const draft = blankDraft(kind, where, '')
  const { record } = draft
  if (!isFeature) {
    faults.of(draft, '', 'is not a GeoJSON Feature')
    return draft
  }
  if (!known && properties !== null && properties !== undefined)
    faults.of(draft, '', 'has properties that are no object')
  for (const [name, field] of Object.entries(kind.fields)) {
    const read = readProperty(field, name === 'id' ? (told.get('id') ?? outerId) : told.get(name))
    if ('reason' in read) faults.of(draft, name, read.reason)
    else record[name] = read.value
  }
  const extra = [...told].filter(([name]) => !Object.hasOwn(kind.fields, name))
  for (const [name, value] of extra) {
    const unkept = whyNotKept(name) ?? whyNotKept(value)
    if (unkept) faults.of(draft, name, unkept)
  }
  record.extra = Object.fromEntries(extra)
  const shape = readGeometry(geometry)
  if ('geometry' in shape) record.geom = shape.geometry
  else for (const reason of shape.reasons) faults.of(draft, 'geometry', reason)
  return draft
}

function idText(id: unknown): string | null {
  if (typeof id === 'number') return String(id)
  return typeof id === 'string' && id !== '' ? id : wideDigits(id)
}
