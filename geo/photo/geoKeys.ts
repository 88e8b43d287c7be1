import { crsOfEpsg, howToConvert, utmOnDatum } from './crs.ts'
import { type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'

/** The GeoKeys that name a reference system, by their names in the GeoTIFF standard (OGC 19-008r4, annex B). */
export interface GeoKeys {
  readonly GTModelTypeGeoKey?: unknown
  readonly GTRasterTypeGeoKey?: unknown
  readonly GTCitationGeoKey?: unknown
  readonly GeographicTypeGeoKey?: unknown
  readonly GeogCitationGeoKey?: unknown
  readonly GeogAngularUnitsGeoKey?: unknown
  readonly ProjectedCSTypeGeoKey?: unknown
  readonly PCSCitationGeoKey?: unknown
  readonly ProjectionGeoKey?: unknown
  readonly ProjLinearUnitsGeoKey?: unknown
  readonly VerticalCSTypeGeoKey?: unknown
}

const userDefined = 32767
const metre = 9001
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
  return photoFault('crs', `The file defines a grid of its own, ${named}, which is not read here. ${howToConvert}.`)
}

const projected = (keys: GeoKeys): PhotoCrs | PhotoFault => {
  const unit = code(keys.ProjLinearUnitsGeoKey)
  if (unit !== undefined && unit !== metre)
    return photoFault(
      'crs',
      `The file's coordinates are in the unit EPSG:${unit}; only metres are read. ${howToConvert}.`,
    )
  const system = code(keys.ProjectedCSTypeGeoKey)
  if (system !== undefined && system !== userDefined) return crsOfEpsg(system)
  const utm = zoneOfProjection(code(keys.ProjectionGeoKey) ?? userDefined)
  const datum = code(keys.GeographicTypeGeoKey) ?? userDefined
  return utm !== undefined && datum !== userDefined ? utmOnDatum(datum, utm.zone, utm.south) : unknown(keys)
}

const geographic = (keys: GeoKeys): PhotoCrs | PhotoFault => {
  const unit = code(keys.GeogAngularUnitsGeoKey)
  if (unit !== undefined && !degrees.includes(unit))
    return photoFault('crs', `The file's angles are in the unit EPSG:${unit}; only degrees are read. ${howToConvert}.`)
  const system = code(keys.GeographicTypeGeoKey) ?? userDefined
  return system === userDefined ? unknown(keys) : crsOfEpsg(system)
}

/**
 * The reference system that a GeoTIFF's keys name. Heights (VerticalCSTypeGeoKey) are not looked at: a photo lies flat.
 */
export const crsOfGeoKeys = (keys: GeoKeys | null): PhotoCrs | PhotoFault => {
  const model = code(keys?.GTModelTypeGeoKey)
  if (keys !== null && (model === 1 || (model === undefined && code(keys.ProjectedCSTypeGeoKey) !== undefined)))
    return projected(keys)
  if (keys !== null && (model === 2 || (model === undefined && code(keys.GeographicTypeGeoKey) !== undefined)))
    return geographic(keys)
  if (keys !== null && model !== undefined) return unknown(keys)
  return photoFault(
    'crs',
    `The file has coordinates but does not say in which grid. Write the grid into it (for example "gdal_edit.py -a_srs EPSG:32633 photo.tif" for UTM zone 33 north), or give it as picture and world file.`,
  )
}

/** True where the file's tie points are told for pixel centres (GTRasterTypeGeoKey 2, PixelIsPoint). */
export const pixelIsPoint = (keys: GeoKeys | null): boolean => keys?.GTRasterTypeGeoKey === 2
