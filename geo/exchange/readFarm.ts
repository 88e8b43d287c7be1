import { type Farm, farm } from '../model/farm.ts'
import type { Field } from '../model/field.ts'
import { FARM_FILE, FORMAT, VERSION } from './archive.ts'
import { type Faults, shown } from './faults.ts'
import { readJson } from './readJson.ts'
import { readProperty, whyNotKept } from './readValue.ts'

/** The farm's own record, or that the archive is none that can be read here; faults say why. */
export type FarmRead = { readonly farm: Farm } | 'faulty' | 'foreign'

/** Name in `farm.json` of each field of the farm; what is not listed here has one name. */
export const FARM_NAMES: Readonly<Record<string, string>> = { season_start_month: 'seasonStartMonth' }

const DEFAULTS: Readonly<Record<string, unknown>> = { units: 'metric', season_start_month: 1 }

/** Reads `farm.json`. An archive of another format or of a newer version is foreign: the rest of it can't be judged. */
export function readFarm(bytes: Uint8Array | undefined, faults: Faults): FarmRead {
  const wrong = (field: string, reason: string) => faults.ofFile(FARM_FILE, reason, 'farm', field)
  if (!bytes) {
    faults.ofFile(FARM_FILE, 'is missing; every archive has it')
    return 'faulty'
  }
  const json = readJson(FARM_FILE, bytes, faults)
  if (!json) return 'faulty'
  if (typeof json.value !== 'object' || json.value === null || Array.isArray(json.value)) {
    faults.ofFile(FARM_FILE, 'is not a JSON object')
    return 'faulty'
  }
  const told = new Map(Object.entries(json.value))
  if (told.get('format') !== FORMAT) {
    wrong('format', told.has('format') ? `is ${shown(told.get('format'))}, not "${FORMAT}"` : 'is missing')
    return 'foreign'
  }
  const version = told.get('version')
  if (version !== VERSION) {
    const newer = typeof version === 'number' && version > VERSION
    wrong(
      'version',
      newer ? `is ${version}: made by a newer Selion, which reads up to ${VERSION} here` : versionReason(version),
    )
    return 'foreign'
  }
  let sound = true
  const fail = (field: string, reason: string) => {
    sound = false
    wrong(field, reason)
  }
  const values = new Map<string, unknown>()
  const origin = readOriginPair(told.get('origin'), fail)
  for (const [name, field] of Object.entries(farm.fields) as [string, Field<unknown>][]) {
    if (name === 'origin_lon' || name === 'origin_lat') continue
    const given = told.get(FARM_NAMES[name] ?? name)
    const read = readProperty(field, given ?? DEFAULTS[name])
    if ('reason' in read) fail(FARM_NAMES[name] ?? name, read.reason)
    else values.set(name, read.value)
  }
  const known = new Set(['format', 'version', 'origin', ...Object.keys(farm.fields).map((n) => FARM_NAMES[n] ?? n)])
  const extra = [...told].filter(([name]) => !known.has(name))
  for (const [name, value] of extra) {
    const unkept = whyNotKept(name) ?? whyNotKept(value)
    if (unkept) fail(name, unkept)
  }
  if (!sound) return 'faulty'
  const record = {
    ...Object.fromEntries(values),
    id: 'farm',
    origin_lon: origin?.[0] ?? null,
    origin_lat: origin?.[1] ?? null,
    extra: Object.fromEntries(extra),
  }
  return { farm: record as unknown as Farm }
}

function versionReason(version: unknown): string {
  return version === undefined ? 'is missing' : `is ${shown(version)}, not ${VERSION}`
}

function readOriginPair(origin: unknown, fail: (field: string, reason: string) => void): [number, number] | null {
  if (origin === undefined || origin === null) return null
  const pair = Array.isArray(origin) && origin.length === 2 && origin.every((n) => typeof n === 'number')
  if (!pair || !origin.every(Number.isFinite)) {
    fail('origin', `is ${shown(origin)}, not [lon, lat]`)
    return null
  }
  const [lon, lat] = origin as [number, number]
  if (Math.abs(lat) > 90) {
    fail('origin', `has the latitude ${lat}, outside ±90${Math.abs(lon) <= 90 ? ' (lon and lat look swapped)' : ''}`)
    return null
  }
  if (Math.abs(lon) > 180) {
    fail('origin', `has the longitude ${lon}, outside ±180`)
    return null
  }
  return [lon === 0 ? 0 : lon, lat === 0 ? 0 : lat]
}
