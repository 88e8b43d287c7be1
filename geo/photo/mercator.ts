import type { LonLat } from '../plane/lonLat.ts'

/** A place on the square Web Mercator map: x from 0 at 180° W to 1 at 180° E, y from 0 in the north to 1 in the south. */
export type MercatorXY = readonly [x: number, y: number]

/** Circumference of the Web Mercator sphere in metres (EPSG:3857, radius 6 378 137 m). */
const aroundM = 2 * Math.PI * 6378137

/** Longitudes beyond ±180 give x beyond 0–1. */
export const mercatorOf = ([lon, lat]: LonLat): MercatorXY => [
  (180 + lon) / 360,
  (1 - Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360)) / Math.PI) / 2,
]

export const lonLatOfMercator = ([x, y]: MercatorXY): LonLat => [
  360 * x - 180,
  (360 / Math.PI) * Math.atan(Math.exp((1 - 2 * y) * Math.PI)) - 90,
]

/** Ground metres to one unit of the map at a latitude, on the sphere; within 0.7 % of the ellipsoid's. */
export const groundMPerUnit = (lat: number): number => aroundM * Math.cos((lat * Math.PI) / 180)

/**
 * MapLibre rounds an image source's corners to this step (in map units) before drawing: 1/8192 of the side of the
 * smallest tile size that holds an image `sizeUnits` across (maplibre-gl 6.17, `ImageSource.setCoordinates` and
 * `getCoordinatesCenterTileID`).
 */
export const cornerStep = (sizeUnits: number): number => 2 ** -(Math.max(0, Math.floor(-Math.log2(sizeUnits))) + 13)
