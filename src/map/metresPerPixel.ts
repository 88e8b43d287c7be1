/** WGS 84's semi-major axis in metres and its first eccentricity squared. */
const A = 6378137
const E2 = 0.00669437999014

/**
 * Ground metres under one CSS pixel at a latitude and zoom, on the ellipsoid: the mean of the scales along the meridian
 * and across it (they differ by up to 0.7 % in Web Mercator, which takes the latitude as a sphere's), so true to
 * 0.34 % in any direction. At zoom 0 the equator measures 512 pixels.
 */
export function metresPerPixel(latDeg: number, zoom: number): number {
  const sin = Math.sin((latDeg * Math.PI) / 180)
  const across = A / Math.sqrt(1 - E2 * sin * sin)
  const along = (A * (1 - E2)) / (1 - E2 * sin * sin) ** 1.5
  return (Math.sqrt(across * along) * Math.sqrt(1 - sin * sin) * 2 * Math.PI) / (512 * 2 ** zoom)
}
