import type { GridBook } from './gridBook.ts'
import { type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'
import { crsOfProj, howToGive } from './projCrs.ts'

/** GeoKeys by their names (OGC 19-008r4, annex B), as far as a file that defines its own grid has them. */
export type GridKeys = Readonly<Record<string, unknown>>

const userDefined = 32767

/** Lengths in metres of the units that grids come in: metre, foot, US survey foot, Clarke's foot (EPSG). */
const unitM: Readonly<Record<number, number>> = { 9001: 1, 9002: 0.3048, 9003: 1200 / 3937, 9005: 0.3047972654 }

/** The file's unit of length in metres; undefined where it is not known. */
export const lengthUnitM = (keys: GridKeys): number | undefined => {
  const code = keys.ProjLinearUnitsGeoKey
  if (code === undefined || code === 0) return 1
  if (code === userDefined)
    return typeof keys.ProjLinearUnitSizeGeoKey === 'number' ? keys.ProjLinearUnitSizeGeoKey : undefined
  return typeof code === 'number' ? unitM[code] : undefined
}

const number = (keys: GridKeys, ...names: readonly string[]): number | undefined => {
  for (const name of names) {
    const value = keys[name]
    const first = typeof value === 'object' && value !== null ? (value as ArrayLike<unknown>)[0] : value
    if (typeof first === 'number' && Number.isFinite(first)) return first
  }
  return undefined
}

const lat0 = ['ProjNatOriginLatGeoKey', 'ProjFalseOriginLatGeoKey', 'ProjCenterLatGeoKey'] as const
const lon0 = ['ProjNatOriginLongGeoKey', 'ProjFalseOriginLongGeoKey', 'ProjCenterLongGeoKey'] as const
const east0 = ['ProjFalseEastingGeoKey', 'ProjFalseOriginEastingGeoKey', 'ProjCenterEastingGeoKey'] as const
const north0 = ['ProjFalseNorthingGeoKey', 'ProjFalseOriginNorthingGeoKey', 'ProjCenterNorthingGeoKey'] as const
const scale0 = ['ProjScaleAtNatOriginGeoKey', 'ProjScaleAtCenterGeoKey'] as const

/** Projections by ProjCoordTransGeoKey (annex C of the standard, codes 1, 8, 9, 10 and 11). */
const projectionOf = (keys: GridKeys): readonly string[] | null => {
  const parallels = [number(keys, 'ProjStdParallel1GeoKey') ?? 0, number(keys, 'ProjStdParallel2GeoKey') ?? 0] as const
  const scale = `+k_0=${number(keys, ...scale0) ?? 1}`
  switch (keys.ProjCoordTransGeoKey) {
    case 1:
      return ['+proj=tmerc', scale]
    case 8:
      return ['+proj=lcc', `+lat_1=${parallels[0]}`, `+lat_2=${parallels[1]}`]
    case 9:
      return ['+proj=lcc', `+lat_1=${number(keys, ...lat0) ?? 0}`, scale]
    case 10:
      return ['+proj=laea']
    case 11:
      return ['+proj=aea', `+lat_1=${parallels[0]}`, `+lat_2=${parallels[1]}`]
    default:
      return null
  }
}

/** Ellipsoids by their EPSG codes, as PROJ names them. */
const ellipsoids: Readonly<Record<number, string>> = {
  7001: 'airy',
  7004: 'bessel',
  7008: 'clrk66',
  7012: 'clrk80',
  7019: 'GRS80',
  7022: 'intl',
  7024: 'krass',
  7030: 'WGS84',
}

/** The figure of the earth and its shift to WGS 84, as PROJ words; null where the file does not tell them. */
const datumOf = async (keys: GridKeys, book: GridBook): Promise<readonly string[] | null> => {
  const system = number(keys, 'GeographicTypeGeoKey') ?? userDefined
  const datum = number(keys, 'GeogGeodeticDatumGeoKey') ?? userDefined
  const shift = keys.GeogTOWGS84GeoKey as ArrayLike<number> | undefined
  const shifted = shift !== undefined && shift.length >= 3 ? [`+towgs84=${Array.from(shift).join(',')}`] : []
  // The registry numbers the classical datums 2000 above the systems in degrees that rest on them (6326 for 4326).
  const code = system !== userDefined ? system : datum !== userDefined ? datum - 2000 : null
  if (code !== null) {
    if (code === 4326) return ['+datum=WGS84']
    const grid = await book(code)
    if (grid !== null) {
      const words = grid.proj.split(/\s+/).filter((word) => !/^\+(?:proj|units|type|no_defs)/.test(word))
      return shifted.length > 0 ? [...words.filter((word) => !/^\+(?:towgs84|datum)/.test(word)), ...shifted] : words
    }
  }
  const prime = number(keys, 'GeogPrimeMeridianLongGeoKey')
  const meridian = prime !== undefined && prime !== 0 ? [`+pm=${prime}`] : []
  const a = number(keys, 'GeogSemiMajorAxisGeoKey')
  const rf = number(keys, 'GeogInvFlatteningGeoKey')
  const b = number(keys, 'GeogSemiMinorAxisGeoKey')
  if (a !== undefined && rf !== undefined && rf !== 0) return [`+a=${a}`, `+rf=${rf}`, ...meridian, ...shifted]
  if (a !== undefined && b !== undefined) return [`+a=${a}`, `+b=${b}`, ...meridian, ...shifted]
  const named = ellipsoids[number(keys, 'GeogEllipsoidGeoKey') ?? 0]
  return named === undefined ? null : [`+ellps=${named}`, ...meridian, ...shifted]
}

const degree = [9102, 9122]

/**
 * The grid that a GeoTIFF defines by its own parameters: transverse Mercator, Lambert conformal conic with one or two
 * standard parallels, Lambert azimuthal or Albers equal area, or plain degrees, on whatever ellipsoid and shift it
 * tells. Lengths among the parameters are in the file's own unit, as libgeotiff reads them. `name` is what the file
 * calls it; null where it does not tell enough.
 */
export const definedGrid = async (
  keys: GridKeys,
  name: string,
  book: GridBook,
): Promise<PhotoCrs | PhotoFault | null> => {
  const angles = keys.GeogAngularUnitsGeoKey
  if (angles !== undefined && angles !== 0 && !degree.includes(angles as number)) return null
  const called = name === '' ? 'the grid that the file defines' : name
  const datum = await datumOf(keys, book)
  if (datum === null) return null
  if (keys.GTModelTypeGeoKey === 2) return crsOfProj(called, ['+proj=longlat', ...datum].join(' '), 'registry')
  const projection = projectionOf(keys)
  if (projection === null) return null
  const metres = lengthUnitM(keys)
  if (metres === undefined)
    return photoFault(
      'crs',
      `The file's coordinates are in a unit of length (EPSG:${keys.ProjLinearUnitsGeoKey}) that is not known here. ${howToGive}.`,
    )
  const words = [
    ...projection,
    `+lat_0=${number(keys, ...lat0) ?? 0}`,
    `+lon_0=${number(keys, ...lon0) ?? 0}`,
    `+x_0=${(number(keys, ...east0) ?? 0) * metres}`,
    `+y_0=${(number(keys, ...north0) ?? 0) * metres}`,
    ...datum,
    metres === 1 ? '+units=m' : `+to_meter=${metres}`,
  ]
  return crsOfProj(called, words.join(' '), 'registry')
}
