import proj4 from 'proj4'
import { type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'

/** proj4's kinds of datum: one shifted by parameters of its own, one by a grid, one it does not know. */
const shiftedBy3 = 1
const shiftedBy7 = 2
const gridShift = 3

/** The ways in which a person can still have a photo shown whose grid is not read. */
export const howToGive =
  'Give the grid as an EPSG code, or as a PROJ string that ends in +towgs84=… with the shift from its datum to WGS 84 (national survey offices publish it); or turn the photo into longitude and latitude first, for example with "gdalwarp -t_srs EPSG:4326 photo.tif lonlat.tif"'

/** Whose word a definition is: the registry's or the file's, or the person's own, who is warned but not refused. */
export type Told = 'registry' | 'person'

const aboutDatum = (name: string, definition: string, told: Told): { caution: string | null } | PhotoFault => {
  const system = new proj4.Proj(definition)
  const kind = system.datum.datum_type
  if (kind === gridShift || /\+nadgrids=(?!@null)/.test(definition))
    return photoFault('crs', `${name} is shifted to WGS 84 by a grid file that is not here. ${howToGive}.`)
  if (kind === shiftedBy3 || kind === shiftedBy7)
    return {
      caution: `${name} is shifted to WGS 84 by published parameters for its whole country: the photo may lie several metres off.`,
    }
  const isGrs80OrWgs84 = Math.abs(system.a - 6378137) < 1e-3 && Math.abs(system.b - 6356752.314) < 1e-3
  if (isGrs80OrWgs84) {
    const isWgs84 = /\+datum=WGS84\b/.test(definition) || (/^WGS 84\b/.test(name) && /\+ellps=WGS84\b/.test(definition))
    return {
      caution: isWgs84
        ? null
        : `${name} is taken for WGS 84 as it stands: the photo may lie up to 2 m off a position from satellites.`,
    }
  }
  if (told === 'person')
    return {
      caution: `${name} rests on a datum whose shift to WGS 84 is not told: the photo may lie hundreds of metres off. Compare it with something whose place you know.`,
    }
  return photoFault('crs', `The shift from the datum of ${name} to WGS 84 is not known here. ${howToGive}.`)
}

/**
 * The reference system of a PROJ string. Where its datum's shift to WGS 84 is not told, it is refused if it came from
 * the registry or the file, and taken with a loud caution if the person gave it.
 */
export const crsOfProj = (name: string, definition: string, told: Told): PhotoCrs | PhotoFault => {
  const axis = /\+axis=(\w+)/.exec(definition)?.[1]
  if (axis !== undefined && axis !== 'enu')
    return photoFault('crs', `${name} does not count eastward and northward, which is not read here. ${howToGive}.`)
  try {
    const about = aboutDatum(name, definition, told)
    if ('kind' in about) return about
    const inDegrees = /\+proj=(?:longlat|latlong|lonlat|latlon)\b/.test(definition)
    return { name, definition, inDegrees, caution: about.caution }
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause)
    return photoFault('crs', `${name} could not be read (${why}). ${howToGive}.`)
  }
}
