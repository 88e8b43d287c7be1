import { expect, it } from 'vitest'
import { pixelGround } from '../../geo/photo/pixelGround.ts'
import type { PlacedPixels } from '../../geo/photo/placement.ts'

/** A picture whose pixels are the grid's own units, so that a pixel's place is its easting and northing. */
const ownUnits = (definition: string): PlacedPixels => ({
  widthPx: 1,
  heightPx: 1,
  placement: {
    affine: { xPerCol: 1, xPerRow: 0, x0: 0, yPerCol: 0, yPerRow: 1, y0: 0 },
    crs: { name: 'as published', definition, inDegrees: false, caution: null },
  },
})

// EPSG Guidance Note 7-2, Transverse Mercator, British National Grid (C2); tolerance 0.011 m.
it('reckons the Transverse Mercator example of EPSG Guidance Note 7-2', () => {
  const grid = '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +a=6377563.396 +rf=299.32496'
  const ground = pixelGround(ownUnits(grid))
  const [east, north] = ground.pixelOf([0.5, 50.5])
  expect(Math.abs(east - 577274.99)).toBeLessThan(0.011)
  expect(Math.abs(north - 69740.5)).toBeLessThan(0.011)
  const [lon, lat] = ground.lonLatOf(577274.99, 69740.5)
  expect(lon).toBeCloseTo(0.5, 6)
  expect(lat).toBeCloseTo(50.5, 6)
})

// Snyder, USGS Professional Paper 1395, p. 269 (C2); printed to 0.1 m.
it('reckons the Transverse Mercator example of Snyder, p. 269', () => {
  const ground = pixelGround(ownUnits('+proj=tmerc +lat_0=0 +lon_0=-75 +k=0.9996 +x_0=0 +y_0=0 +ellps=clrk66'))
  const [x, y] = ground.pixelOf([-73.5, 40.5])
  expect(Math.abs(x - 127106.5)).toBeLessThanOrEqual(0.05)
  expect(Math.abs(y - 4484124.4)).toBeLessThanOrEqual(0.05)
  const [lon, lat] = ground.lonLatOf(127106.5, 4484124.4)
  expect(lon).toBeCloseTo(-73.5, 5)
  expect(lat).toBeCloseTo(40.5, 5)
})
