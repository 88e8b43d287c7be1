import proj4 from 'proj4'
import { type LonLat, lonAbout, type Metres } from './lonLat.ts'

/** SRID of the farm's plane in `spatial_ref_sys`; private use, one farm a database. */
export const PLANE_SRID = 990001

/** The farm's own plane: transverse Mercator centred on the origin, scale 1, metres (WGS 84). */
export interface Plane {
  readonly origin: LonLat
  /** The plane's definition as PROJ reads it. */
  readonly proj4text: string
  toMetres(at: LonLat): Metres
  /** Longitudes come back within 180° of the origin. */
  toLonLat(at: Metres): LonLat
}

/** PROJ's definition of the plane about an origin. */
export function planeText([lon, lat]: LonLat): string {
  return `+proj=tmerc +lat_0=${lat} +lon_0=${lon} +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs`
}

/** The plane about an origin. Series of Poder and Engsager, as PROJ's tmerc; within 5 km its lengths are true to 4e-7. */
export function planeAbout(origin: LonLat): Plane {
  if (!(Number.isFinite(origin[0]) && Math.abs(origin[1]) <= 90)) throw new Error(`no plane about ${origin}`)
  const proj4text = planeText(origin)
  const converter = proj4('+proj=longlat +datum=WGS84 +no_defs', proj4text)
  return {
    origin,
    proj4text,
    toMetres: ([lon, lat]) => {
      const [east, north] = converter.forward([lon, lat])
      return [east!, north!]
    },
    toLonLat: ([eastM, northM]) => {
      const [lon, lat] = converter.inverse([eastM, northM])
      return [lonAbout(origin[0], lon!), lat!]
    },
  }
}
