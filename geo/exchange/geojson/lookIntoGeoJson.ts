import { type Grid, gridOf, LON_LAT } from '../../plane/grid.ts'
import type { How } from '../driver.ts'
import { gatherFaults } from '../faults.ts'
import type { Found, FoundFeature } from '../layers/found.ts'
import { NO_SHAPE, placeShape, refused } from '../layers/placeShape.ts'
import { readGeometry } from '../readGeometry.ts'
import { readJson } from '../readJson.ts'
import { wideDigits } from '../wideNumbers.ts'

/** How many features are read between two breaths. */
const BREATH = 5000

/**
 * The features of a GeoJSON file (RFC 7946): a FeatureCollection, one Feature, or a bare geometry. A `crs` member of
 * older GeoJSON is followed where its grid is known.
 */
export async function lookIntoGeoJson(bytes: Uint8Array, how: How): Promise<Found> {
  const file = how.fileName
  const faults = gatherFaults()
  const nothing = (asksGrid = false): Found => ({ layers: [], notes: faults.all(), asksGrid })
  const json = readJson(file, bytes, faults)
  if (!json) return nothing()
  const members = membersOf(json.value)
  if (!members) {
    faults.ofFile(file, 'is not a GeoJSON FeatureCollection')
    return nothing()
  }
  const named = (json.value as { crs?: { properties?: { name?: unknown } } | null }).crs?.properties?.name
  let grid: Grid = LON_LAT
  if (typeof named === 'string') {
    const known = gridOf(named)
    const given = 'unknown' in known && how.grid ? gridOf(how.grid) : known
    if ('unknown' in given) {
      faults.ofFile(file, `is in ${named}, and ${given.unknown}`, '', 'crs')
      return nothing(true)
    }
    grid = given
    if (grid.caution) faults.ofFile(file, grid.caution, '', 'crs')
  }
  const features: FoundFeature[] = []
  for (let i = 0; i < members.length; i++) {
    features.push(featureOf(members[i], i + 1, grid))
    if (i % BREATH === 0) await how.pace(i, members.length)
  }
  return { layers: [{ name: '', file, features }], notes: faults.all(), asksGrid: false }
}

function membersOf(json: unknown): unknown[] | null {
  if (typeof json !== 'object' || json === null) return null
  const { type, features } = json as { type?: unknown; features?: unknown }
  if (type === 'FeatureCollection') return Array.isArray(features) ? features : null
  if (type === 'Feature') return [json]
  return 'coordinates' in json || type === 'GeometryCollection'
    ? [{ type: 'Feature', geometry: json, properties: {} }]
    : null
}

function featureOf(feature: unknown, n: number, grid: Grid): FoundFeature {
  const isFeature =
    typeof feature === 'object' && feature !== null && (feature as { type?: unknown }).type === 'Feature'
  if (!isFeature)
    return { n, where: `feature ${n}`, id: null, geometry: null, flaws: ['is not a GeoJSON Feature'], values: {} }
  const { id: outerId, geometry, properties } = feature as { id?: unknown; geometry?: unknown; properties?: unknown }
  const hasProperties = typeof properties === 'object' && properties !== null && !Array.isArray(properties)
  const values = hasProperties ? (properties as Record<string, unknown>) : {}
  const own = idText(outerId)
  const id = idText(values.id) ?? own
  const odd = !hasProperties && properties !== null && properties !== undefined
  return {
    n,
    where: id ? `feature ${n} (${id})` : `feature ${n}`,
    id: own,
    ...(odd ? { geometry: null, flaws: ['has properties that are no object'] } : shapeOf(geometry, grid)),
    values,
  }
}

function shapeOf(geometry: unknown, grid: Grid) {
  if (geometry === null || geometry === undefined) return NO_SHAPE
  if (grid.toLonLat) return placeShape(geometry as never, grid)
  const read = readGeometry(geometry)
  return 'geometry' in read ? { geometry: read.geometry, flaws: [] } : refused(read.reasons, geometry)
}

function idText(id: unknown): string | null {
  if (typeof id === 'number') return String(id)
  return typeof id === 'string' && id !== '' ? id : wideDigits(id)
}
