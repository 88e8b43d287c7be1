/** Longitude and latitude in degrees on WGS 84 (EPSG:4326), in that order. */
export type LonLat = readonly [lon: number, lat: number]

/** East and north in metres in the farm's own plane, from its origin. */
export type Metres = readonly [eastM: number, northM: number]

/** The same meridian written within 180° of `about`, so that a farm on the 180th meridian is in one piece. Exact between 128° and 256°. */
export function lonAbout(about: number, lon: number): number {
  if (lon - about > 180) return lon - 360
  if (lon - about < -180) return lon + 360
  return lon
}

/** The same meridian written within ±180°, as the archive has it. */
export function lonWithin180(lon: number): number {
  if (lon > 180) return lon - 360
  if (lon < -180) return lon + 360
  return lon
}
