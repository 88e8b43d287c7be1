import { type Zippable, zipSync } from 'fflate'
import type { FarmContent, Fault } from '../archive.ts'
import type { Written } from '../driver.ts'
import { type GivenFeature, givenLayers } from '../layers/givenLayers.ts'
import { shapeClass } from '../layers/shapeClass.ts'
import { writeDbf } from './writeDbf.ts'
import { type ShpType, writeShp } from './writeShp.ts'

/** WGS 84 in degrees, as Esri's WKT has it. */
const PRJ =
  'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]'

const MTIME = new Date(1980, 0, 1)

/**
 * A farm as shapefiles in a zip, one a kind of record; structures, which may be of any shape, one a sort of shape. What a
 * shapefile can't hold (heights, long texts, collections) is noted.
 */
export function writeShapefiles(content: FarmContent): Written {
  const zip: Zippable = {}
  const notes: Fault[] = []
  const encoder = new TextEncoder()
  for (const { kind, columns, features } of givenLayers(content)) {
    const sorts = new Map<ShpType, GivenFeature[]>()
    for (const feature of features) {
      const sort = sortOf(feature)
      const note = (field: string, reason: string) =>
        notes.push({ file: kind.file, record: String(feature.values.id), field, reason })
      if (!sort) note('geometry', `is a ${feature.geometry.type}, which a shapefile can't hold: left out`)
      else {
        const members = sorts.get(sort)
        if (members) members.push(feature)
        else sorts.set(sort, [feature])
      }
    }
    if (features.some(hasHeights))
      notes.push({ file: kind.file, record: '', field: 'geometry', reason: 'heights are not written to shapefiles' })
    for (const [sort, members] of sorts) {
      const stem = kind.shapes?.includes('any') || sorts.size > 1 ? `${kind.name}_${sort}` : kind.name
      const { shp, shx } = writeShp(
        sort,
        members.map(({ geometry }) => geometry),
      )
      const table = writeDbf(columns, members)
      for (const { n, field, reason } of table.notes)
        notes.push({ file: `${stem}.dbf`, record: n > 0 ? String(members[n - 1]!.values.id) : '', field, reason })
      const files = { shp, shx, dbf: table.dbf, prj: encoder.encode(PRJ), cpg: encoder.encode('UTF-8') }
      for (const [ending, bytes] of Object.entries(files)) zip[`${stem}.${ending}`] = [bytes, { mtime: MTIME }]
    }
  }
  return { bytes: zipSync(zip), notes }
}

function sortOf({ geometry }: GivenFeature): ShpType | null {
  if (geometry.type === 'MultiPoint') return 'multipoints'
  const sort = shapeClass(geometry)
  return sort === 'mixtures' || sort === 'no shapes' ? null : sort
}

function hasHeights({ geometry }: GivenFeature): boolean {
  let inner: unknown = geometry.type === 'GeometryCollection' ? [] : geometry.coordinates
  while (Array.isArray(inner) && Array.isArray(inner[0])) inner = inner[0]
  return (inner as unknown[]).length > 2
}
