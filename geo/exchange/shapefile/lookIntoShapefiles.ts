import type { Fault } from '../archive.ts'
import type { How } from '../driver.ts'
import { decodeLegacy } from '../layers/decodeLegacy.ts'
import type { Found, FoundFeature, FoundLayer } from '../layers/found.ts'
import { gridFor } from '../layers/gridFor.ts'
import { NO_SHAPE, placeShape } from '../layers/placeShape.ts'
import { readZip } from '../readZip.ts'
import { type DbfRead, readDbf } from './readDbf.ts'
import { readShp } from './readShp.ts'
import { type ShapefileParts, shapefilesIn } from './shapefilesIn.ts'

/** Every shapefile of a zip as a layer, brought to lon/lat by its .prj. */
export async function lookIntoShapefiles(bytes: Uint8Array, how: How): Promise<Found> {
  const { files, faults } = readZip(bytes)
  const notes: Fault[] = faults.map((fault) => ({ ...fault, file: fault.file || how.fileName }))
  const layers: FoundLayer[] = []
  let asksGrid = false
  const shapefiles = shapefilesIn(files)
  if (shapefiles.length === 0 && faults.length === 0)
    notes.push({ file: how.fileName, record: '', field: '', reason: 'holds no shapefile (.shp)' })
  for (const one of shapefiles) {
    const layer = await layerOf(one, how, notes)
    if (layer === 'grid unknown') asksGrid = true
    else if (layer) layers.push(layer)
  }
  return { layers, notes, asksGrid }
}

async function layerOf(
  { path, shp, dbf, prj, cpg }: ShapefileParts,
  how: How,
  notes: Fault[],
): Promise<FoundLayer | 'grid unknown' | null> {
  const note = (ending: string, record: string, field: string, reason: string) =>
    notes.push({ file: `${path}.${ending}`, record, field, reason })
  const { shapes, flaw } = await readShp(shp, how.pace)
  if (flaw) note('shp', '', '', flaw)
  const table: DbfRead = dbf
    ? await readDbf(dbf, cpg && decodeLegacy(cpg).text, how.pace)
    : { records: [], notes: [{ n: 0, field: '', reason: 'is missing: the shapes come without values' }] }
  for (const { n, field, reason } of table.notes) note('dbf', n > 0 ? `record ${n}` : '', field, reason)
  if (dbf && table.records.length !== shapes.length)
    note('dbf', '', '', `has ${table.records.length} records, and the .shp ${shapes.length} shapes`)
  const raw = shapes.map((shape) => (typeof shape === 'string' ? null : shape))
  const told = prj ? decodeLegacy(prj).text : null
  const found = gridFor(told, how.grid, raw)
  if ('unknown' in found) {
    note(prj ? 'prj' : 'shp', '', 'crs', found.unknown)
    return 'grid unknown'
  }
  for (const reason of found.notes) note(prj ? 'prj' : 'shp', '', 'crs', reason)
  const features: FoundFeature[] = []
  shapes.forEach((shape, i) => {
    const values = i < table.records.length ? table.records[i]! : {}
    if (values === null) return
    const placed =
      typeof shape === 'string'
        ? { geometry: null, flaws: [shape] }
        : shape === null
          ? NO_SHAPE
          : placeShape(shape, found.grid)
    const id = typeof values.id === 'string' ? ` (${values.id})` : ''
    features.push({ n: i + 1, where: `record ${i + 1}${id}`, id: null, ...placed, values })
  })
  const struck = table.records.filter((record) => record === null).length
  if (struck > 0) note('dbf', '', '', `${struck} of its records are struck out and left out`)
  if (shapes.length === 0) return null
  return { name: path.replace(/^.*\//, ''), file: `${path}.shp`, features }
}
