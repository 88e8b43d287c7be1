import proj4 from 'proj4'
import { KNOWN_GRIDS } from './knownGrids.ts'
import type { LonLat } from './lonLat.ts'

/** A coordinate reference system that coordinates of other programs come in. */
export interface Grid {
  readonly name: string
  /** Longitude and latitude on WGS 84 of coordinates (east or longitude first); null where they are that already. */
  readonly toLonLat: ((at: readonly [number, number]) => LonLat) | null
  /** How far places may lie off by the reading of this system, or null. */
  readonly caution: string | null
}

/** Why a grid is not known here, in a half sentence that begins with what it is. */
export interface UnknownGrid {
  readonly unknown: string
}

export const LON_LAT: Grid = { name: 'WGS 84 longitude and latitude', toLonLat: null, caution: null }

interface Datum {
  readonly name: string
  readonly offM: 0 | 1 | 2
}

/** Geographic systems that are taken for WGS 84 as they stand, since they lie within 2 m of it; by EPSG code. */
const DATUMS: Readonly<Record<number, Datum>> = {
  4326: { name: 'WGS 84', offM: 0 },
  4979: { name: 'WGS 84', offM: 0 },
  4258: { name: 'ETRS89', offM: 1 },
  4269: { name: 'NAD83', offM: 2 },
  6318: { name: 'NAD83(2011)', offM: 2 },
  4283: { name: 'GDA94', offM: 2 },
  7844: { name: 'GDA2020', offM: 1 },
  4674: { name: 'SIRGAS 2000', offM: 1 },
  4167: { name: 'NZGD2000', offM: 1 },
}

/** Runs of UTM zones: EPSG code = base + zone. */
const ZONES = [
  { datum: 4326, title: 'UTM zone', base: 32600, first: 1, last: 60, south: false },
  { datum: 4326, title: 'UTM zone', base: 32700, first: 1, last: 60, south: true },
  { datum: 4258, title: 'UTM zone', base: 25800, first: 28, last: 38, south: false },
  { datum: 4269, title: 'UTM zone', base: 26900, first: 1, last: 23, south: false },
  { datum: 6318, title: 'UTM zone', base: 6329, first: 1, last: 19, south: false },
  { datum: 4283, title: 'MGA zone', base: 28300, first: 48, last: 58, south: true },
  { datum: 7844, title: 'MGA zone', base: 7800, first: 46, last: 59, south: true },
  { datum: 4674, title: 'UTM zone', base: 31954, first: 11, last: 22, south: false },
  { datum: 4674, title: 'UTM zone', base: 31960, first: 17, last: 25, south: true },
] as const

/**
 * The grid that a person or a file names: an EPSG code (`EPSG:25833`, `25833`, `urn:ogc:def:crs:EPSG::25833`), `CRS84`, a
 * PROJ string (`+proj=…`), or WKT 1 (OGC's or Esri's). Refused where proj4 would have to guess the datum or lacks the grid
 * file that shifts it, since that would put everything some hundred metres off in silence.
 */
export function gridOf(named: string): Grid | UnknownGrid {
  const text = named.replace(/^\uFEFF/, '').trim()
  if (/(?:^|[:/])(?:OGC:)?(?:\d[\d.]*:)?CRS:?84$/i.test(text)) return LON_LAT
  const code = /^(?:EPSG::?|.*[:/]EPSG[:/][\d.]*[:/])?(\d{4,6})$/i.exec(text)?.[1]
  if (code) return gridOfEpsg(Number(code))
  if (text.startsWith('+')) return gridOfProj(text, text)
  if (/^(?:PROJCS|GEOGCS)\s*\[/i.test(text)) return gridOfWkt(text)
  if (/^(?:PROJCRS|GEOGCRS|GEODCRS|COMPD_CS|LOCAL_CS|ENGCRS)\s*\[/i.test(text)) {
    const last = [...text.matchAll(/(?:ID|AUTHORITY)\s*\[\s*"EPSG"\s*,\s*"?(\d+)"?\s*\]/gi)].at(-1)?.[1]
    if (last && !/^COMPD_CS/i.test(text)) return gridOfEpsg(Number(last))
  }
  return { unknown: `${JSON.stringify(text.slice(0, 60))} is no EPSG code, PROJ string or WKT 1 definition` }
}

function gridOfEpsg(code: number): Grid | UnknownGrid {
  const datum = DATUMS[code]
  if (datum) return datum.offM === 0 ? LON_LAT : { ...LON_LAT, name: datum.name, caution: cautionOf(datum) }
  if (code === 3857 || code === 900913) return converted('Web Mercator', 'EPSG:3857', null)
  const run = ZONES.find(({ base, first, last }) => code >= base + first && code <= base + last)
  if (run) {
    const on = DATUMS[run.datum]!
    const ellipsoid = run.datum === 4326 ? 'WGS84' : 'GRS80'
    const side = run.south ? ' +south' : ''
    const name = `${on.name} / ${run.title} ${code - run.base}${run.south ? 'S' : 'N'}`
    return converted(
      name,
      `+proj=utm +zone=${code - run.base}${side} +ellps=${ellipsoid} +towgs84=0,0,0 +units=m +no_defs`,
      cautionOf(on),
    )
  }
  const known = KNOWN_GRIDS[code]
  if (known) return converted(known.name, `${known.proj} +units=m +no_defs`, shiftCaution(known.name, known.proj))
  return { unknown: `EPSG:${code} is none of the grids known here` }
}

const cautionOf = ({ name, offM }: Datum): string | null =>
  offM === 0 ? null : `${name} is taken for WGS 84 as it stands: places may lie up to ${offM} m off`

function shiftCaution(name: string, definition: string): string {
  if (/\+towgs84=0,0,0(?:\s|$)/.test(definition))
    return `the datum of ${name} is taken for WGS 84 as it stands: places may lie up to 2 m off`
  return `${name} is shifted to WGS 84 by a rough formula: places may lie several metres off`
}

/** What proj4 says of a datum: shifted by 3 or 7 parameters, by a grid file, taken for WGS 84, or none known. */
const GRID_SHIFT = 3
const NO_DATUM = 5

function gridOfWkt(wkt: string): Grid | UnknownGrid {
  const name = /^\w+\s*\[\s*"([^"]+)"/.exec(wkt)?.[1] ?? ''
  const code = /AUTHORITY\s*\[\s*"EPSG"\s*,\s*"?(\d+)"?\s*\]\s*\]\s*$/i.exec(wkt)?.[1]
  if (code) {
    const known = gridOfEpsg(Number(code))
    if (!('unknown' in known)) return known
  }
  const byName = Object.entries(KNOWN_GRIDS).find(([, { esri }]) => esri.toLowerCase() === name.toLowerCase())
  if (byName) return gridOfEpsg(Number(byName[0]))
  if (/^GEOGCS/i.test(wkt)) {
    if (
      /DATUM\s*\[\s*"(?:D_)?WGS_(?:19)?84"/i.test(wkt) &&
      /PRIMEM\s*\[[^\]]*,\s*0(?:\.0*)?\s*[\],]/i.test(wkt) &&
      /UNIT\s*\[\s*"degree/i.test(wkt)
    )
      return LON_LAT
    if (!/UNIT\s*\[\s*"degree/i.test(wkt)) return { unknown: `${JSON.stringify(name)} is not in degrees` }
  }
  return gridOfProj(name, wkt)
}

/** A grid by a definition that proj4 reads (PROJ string or WKT 1). */
function gridOfProj(name: string, definition: string): Grid | UnknownGrid {
  try {
    const system = new proj4.Proj(definition)
    const isLikeWgs84 = Math.abs(system.a - 6378137) < 1e-3 && Math.abs(system.b - 6356752.314) < 1e-3
    const kind = system.datum.datum_type
    if (kind === GRID_SHIFT || (kind === NO_DATUM && !isLikeWgs84))
      return { unknown: `the datum of ${JSON.stringify(name)} is not known here` }
    if (kind === NO_DATUM || /WGS_?(?:19)?84/i.test(definition))
      return converted(
        name,
        definition,
        /WGS_?(?:19)?84/i.test(definition) ? null : shiftCaution(name, '+towgs84=0,0,0'),
      )
    return converted(name, definition, shiftCaution(name, ''))
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause)
    return { unknown: `${JSON.stringify(name.slice(0, 60))} can't be read (${why})` }
  }
}

function converted(name: string, definition: string, caution: string | null): Grid {
  const converter = proj4(definition, '+proj=longlat +datum=WGS84 +no_defs')
  return {
    name,
    caution,
    toLonLat: ([x, y]) => {
      const [lon, lat] = converter.forward([x, y])
      return [lon!, lat!]
    },
  }
}
