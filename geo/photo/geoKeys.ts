import { howToConvert, utmOnDatum } from './crs.ts'
import { definedGrid, type GridKeys, lengthUnitM } from './definedGrid.ts'
import { emptyGridBook, type GridBook } from './gridBook.ts'
import { isPhotoFault, type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'
import { howToGive } from './projCrs.ts'
import { findEpsg } from './typedCrs.ts'

/** The GeoKeys that name a reference system, by their names in the GeoTIFF standard (OGC 19-008r4, annex B). */
export type GeoKeys = GridKeys

const userDefined = 32767
const degrees = [9102, 9122]

const code = (value: unknown): number | undefined => (typeof value === 'number' && value !== 0 ? value : undefined)

const citation = (keys: GeoKeys): string => {
  const texts = [keys.PCSCitationGeoKey, keys.GTCitationGeoKey, keys.GeogCitationGeoKey]
  const found = texts.find((text) => typeof text === 'string' && text.trim() !== '')
  return typeof found === 'string' ? found.replaceAll('\0', '').split('|')[0]!.trim() : ''
}

/** UTM zones told by ProjectionGeoKey (standard, annex of projection codes): 16001–16060 north, 16101–16160 south. */
const zoneOfProjection = (projection: number): { zone: number; south: boolean } | undefined => {
  if (projection >= 16001 && projection <= 16060) return { zone: projection - 16000, south: false }
  if (projection >= 16101 && projection <= 16160) return { zone: projection - 16100, south: true }
  return undefined
}

const unknown = (keys: GeoKeys): PhotoFault => {
  const said = citation(keys)
  const named = said === '' ? 'without naming it' : `calling it "${said}"`
  return photoFault('crs', `The file defines a grid of its own, ${named}, which is not read here. ${howToGive}.`)
}

const own = async (keys: GeoKeys, book: GridBook): Promise<PhotoCrs | PhotoFault> =>
  (await definedGrid(keys, citation(keys), book)) ?? unknown(keys)

/** The unit of a definition in metres: what it tells itself, or metres. */
const unitOf = (definition: string): number => {
  const told = /\+to_meter=([\d.eE+-]+)/.exec(definition)?.[1]
  if (told !== undefined) return Number(told)
  const name = /\+units=([\w-]+)/.exec(definition)?.[1] ?? 'm'
  return { ft: 0.3048, 'us-ft': 1200 / 3937 }[name] ?? 1
}

const projected = async (keys: GeoKeys, book: GridBook): Promise<PhotoCrs | PhotoFault> => {
  const system = code(keys.ProjectedCSTypeGeoKey)
  if (system === undefined || system === userDefined) {
    const utm = zoneOfProjection(code(keys.ProjectionGeoKey) ?? userDefined)
    const datum = code(keys.GeographicTypeGeoKey) ?? userDefined
    if (utm === undefined || datum === userDefined) return own(keys, book)
    const known = utmOnDatum(datum, utm.zone, utm.south)
    return isPhotoFault(known) ? known : inUnitOf(keys, known)
  }
  const crs = await findEpsg(system, book)
  return isPhotoFault(crs) ? crs : inUnitOf(keys, crs)
}

/** Refuses a grid that the file counts in another unit than the registry does. */
const inUnitOf = (keys: GeoKeys, crs: PhotoCrs): PhotoCrs | PhotoFault => {
  const unit = code(keys.ProjLinearUnitsGeoKey)
  if (unit === undefined || Math.abs((lengthUnitM(keys) ?? 0) / unitOf(crs.definition) - 1) < 1e-9) return crs
  return photoFault(
    'crs',
    `The file's coordinates are in the unit EPSG:${unit}, which is not that of ${crs.name}. ${howToGive}.`,
  )
}

const geographic = async (keys: GeoKeys, book: GridBook): Promise<PhotoCrs | PhotoFault> => {
  const unit = code(keys.GeogAngularUnitsGeoKey)
  if (unit !== undefined && !degrees.includes(unit))
    return photoFault('crs', `The file's angles are in the unit EPSG:${unit}; only degrees are read. ${howToConvert}.`)
  const system = code(keys.GeographicTypeGeoKey) ?? userDefined
  return system === userDefined ? own({ ...keys, GTModelTypeGeoKey: 2 }, book) : findEpsg(system, book)
}

/**
 * The reference system that a GeoTIFF's keys name or define. Heights (VerticalCSTypeGeoKey) are not looked at: a photo
 * lies flat. Codes that are not known by themselves are looked up in the book of grids.
 */
export const crsOfGeoKeys = async (
  keys: GeoKeys | null,
  book: GridBook = emptyGridBook,
): Promise<PhotoCrs | PhotoFault> => {
  const model = code(keys?.GTModelTypeGeoKey)
  if (keys !== null && (model === 1 || (model === undefined && code(keys.ProjectedCSTypeGeoKey) !== undefined)))
    return projected(keys, book)
  if (keys !== null && (model === 2 || (model === undefined && code(keys.GeographicTypeGeoKey) !== undefined)))
    return geographic(keys, book)
  if (keys !== null && model !== undefined) return unknown(keys)
  return photoFault(
    'crs',
    'The file has coordinates but does not say in which grid. Give its EPSG code or a PROJ string, or write the grid into it (for example "gdal_edit.py -a_srs EPSG:32633 photo.tif" for UTM zone 33 north).',
  )
}

/** True where the file's tie points are told for pixel centres (GTRasterTypeGeoKey 2, PixelIsPoint). */
export const pixelIsPoint = (keys: GeoKeys | null): boolean => keys?.GTRasterTypeGeoKey === 2
