import proj4 from 'proj4'
import { type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'

/** A geodetic datum whose coordinates are taken for WGS 84 without a shift, as GDAL does where it has no grids. */
interface Datum {
  readonly name: string
  readonly epsg: number
  readonly ellipsoid: 'WGS84' | 'GRS80'
  readonly caution: string | null
}

/** A run of UTM zones under one datum: EPSG code = base + zone. */
interface ZoneRun {
  readonly datum: Datum
  readonly title: 'UTM' | 'MGA'
  readonly base: number
  readonly zones: readonly [first: number, last: number]
  readonly south: boolean
}

const caution = (name: string, offM: string): string => `${name} is taken for WGS 84 as it stands: ${offM}.`

const wgs84: Datum = { name: 'WGS 84', epsg: 4326, ellipsoid: 'WGS84', caution: null }
const grs80 = (name: string, epsg: number, offM: string): Datum => ({
  name,
  epsg,
  ellipsoid: 'GRS80',
  caution: caution(name, offM),
})
const etrs89 = grs80('ETRS89', 4258, 'the photo may lie up to 1 m off a position from satellites')
const nad83 = grs80('NAD83', 4269, 'the photo may lie up to 2 m off a position from satellites')
const nad83of2011 = grs80('NAD83(2011)', 6318, 'the photo may lie up to 2 m off a position from satellites')
const gda94 = grs80('GDA94', 4283, 'the photo may lie up to 2 m off a position from satellites')
const gda2020 = grs80('GDA2020', 7844, 'the photo may lie up to 1 m off a position from satellites')
const sirgas = grs80('SIRGAS 2000', 4674, 'the photo may lie up to 1 m off a position from satellites')
const nzgd2000 = grs80('NZGD2000', 4167, 'the photo may lie up to 1 m off a position from satellites')

const datums: readonly Datum[] = [wgs84, etrs89, nad83, nad83of2011, gda94, gda2020, sirgas, nzgd2000]

/** Codes, names and zones as in the EPSG registry. */
const zoneRuns: readonly ZoneRun[] = [
  { datum: wgs84, title: 'UTM', base: 32600, zones: [1, 60], south: false },
  { datum: wgs84, title: 'UTM', base: 32700, zones: [1, 60], south: true },
  { datum: etrs89, title: 'UTM', base: 25800, zones: [28, 38], south: false },
  { datum: nad83, title: 'UTM', base: 26900, zones: [1, 23], south: false },
  { datum: nad83of2011, title: 'UTM', base: 6329, zones: [1, 19], south: false },
  { datum: gda94, title: 'MGA', base: 28300, zones: [48, 58], south: true },
  { datum: gda2020, title: 'MGA', base: 7800, zones: [46, 59], south: true },
  { datum: sirgas, title: 'UTM', base: 31954, zones: [11, 22], south: false },
  { datum: sirgas, title: 'UTM', base: 31960, zones: [17, 25], south: true },
]

const utm = (datum: Datum, title: 'UTM' | 'MGA', zone: number, south: boolean): PhotoCrs => ({
  name: title === 'MGA' ? `${datum.name} / MGA zone ${zone}` : `${datum.name} / UTM zone ${zone}${south ? 'S' : 'N'}`,
  definition: `+proj=utm +zone=${zone}${south ? ' +south' : ''} +ellps=${datum.ellipsoid} +towgs84=0,0,0 +units=m +no_defs`,
  inDegrees: false,
  caution: datum.caution,
})

const geographic = (datum: Datum): PhotoCrs => ({
  name: `${datum.name} longitude and latitude`,
  definition: `+proj=longlat +ellps=${datum.ellipsoid} +towgs84=0,0,0 +no_defs`,
  inDegrees: true,
  caution: datum.caution,
})

const webMercator: PhotoCrs = {
  name: 'WGS 84 / Pseudo-Mercator',
  definition: 'EPSG:3857',
  inDegrees: false,
  caution: null,
}

/** Longitude and latitude on WGS 84. */
export const lonLatCrs: PhotoCrs = geographic(wgs84)

/** What to do with a photo whose grid is not known here. */
export const howToConvert =
  'Turn the photo into longitude and latitude first, for example with "gdalwarp -t_srs EPSG:4326 photo.tif lonlat.tif"'

/** The reference system of an EPSG code, where it is UTM or longitude and latitude on a datum known here, or Web Mercator. */
export const crsOfEpsg = (code: number): PhotoCrs | PhotoFault => {
  if (code === 3857) return webMercator
  const datum = datums.find((d) => d.epsg === code)
  if (datum !== undefined) return geographic(datum)
  const run = zoneRuns.find((r) => code >= r.base + r.zones[0] && code <= r.base + r.zones[1])
  if (run !== undefined) return utm(run.datum, run.title, code - run.base, run.south)
  return photoFault(
    'crs',
    `EPSG:${code} is none of the grids known here (UTM; longitude and latitude; Web Mercator). ${howToConvert}.`,
  )
}

/** UTM zone 1–60 on a datum given by its geographic EPSG code, for files that name datum and zone apart. */
export const utmOnDatum = (datumEpsg: number, zone: number, south: boolean): PhotoCrs | PhotoFault => {
  const datum = datums.find((d) => d.epsg === datumEpsg)
  if (datum === undefined)
    return photoFault('crs', `UTM zone ${zone} on datum EPSG:${datumEpsg} is not known here. ${howToConvert}.`)
  if (!Number.isInteger(zone) || zone < 1 || zone > 60)
    return photoFault('crs', `There is no UTM zone ${zone}: zones run from 1 to 60.`)
  return utm(datum, 'UTM', zone, south)
}

/** proj4's kinds of datum: one shifted by parameters of its own, one by a grid, one it does not know. */
const shiftedBy3 = 1
const shiftedBy7 = 2
const gridShift = 3
const noDatum = 5

const wktCaution = (name: string, datumKind: number, isWgs84: boolean): string | null => {
  if (datumKind === shiftedBy3 || datumKind === shiftedBy7)
    return `${name} is shifted to WGS 84 by a rough formula: the photo may lie several metres off.`
  return isWgs84 ? null : caution(name, 'the photo may lie up to 2 m off a position from satellites')
}

/**
 * The reference system of a `.prj` file beside a picture (WKT 1, OGC's or Esri's). Refused where proj4 would have to
 * guess the datum or lacks the grid that shifts it, since that would put the photo tens of metres off in silence.
 */
export const crsOfWkt = (text: string): PhotoCrs | PhotoFault => {
  const wkt = text.replace(/^\uFEFF/, '').trim()
  const name = /^(?:PROJCS|GEOGCS)\s*\[\s*"([^"]+)"/i.exec(wkt)?.[1]
  const inDegrees = /^GEOGCS/i.test(wkt)
  if (name === undefined)
    return photoFault('crs', 'The .prj file holds no PROJCS or GEOGCS definition (WKT 1). Give an EPSG code instead.')
  try {
    const system = new proj4.Proj(wkt)
    const isGrs80OrWgs84 = Math.abs(system.a - 6378137) < 1e-3 && Math.abs(system.b - 6356752.314) < 1e-3
    const kind = system.datum.datum_type
    if (kind === gridShift || (kind === noDatum && !isGrs80OrWgs84))
      return photoFault('crs', `The .prj file's "${name}" is on a datum that is not known here. ${howToConvert}.`)
    if (inDegrees && !/UNIT\s*\[\s*"degree/i.test(wkt))
      return photoFault('crs', `The .prj file's "${name}" is not in degrees. ${howToConvert}.`)
    const isWgs84 = /DATUM\s*\[\s*"(?:D_)?WGS_(?:19)?84"/i.test(wkt)
    return { name, definition: wkt, inDegrees, caution: wktCaution(name, kind, isWgs84) }
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause)
    return photoFault('crs', `The .prj file's "${name}" could not be read (${why}). ${howToConvert}.`)
  }
}
