import * as geographiclib from 'geographiclib-geodesic'
import { expect, it } from 'vitest'
import { metresPerPixel } from '../../../src/map/metresPerPixel.ts'

const lib = (geographiclib as { default?: typeof geographiclib }).default ?? geographiclib
const { WGS84 } = lib.Geodesic

// Against geodesics by GeographicLib (X): what 1,000 pixels of Web Mercator measure on the ground, both ways.
it.each([0, 12.5, -33.9, 45, 52.19, 60, 69.6])('is true to 0.34 %% at latitude %s', (lat) => {
  const zoom = 17
  const degPerPx = 360 / (512 * 2 ** zoom)
  const eastM = WGS84.Inverse(lat, -500 * degPerPx, lat, 500 * degPerPx).s12!
  const mercator = (phi: number) => (Math.log(Math.tan(Math.PI / 4 + (phi * Math.PI) / 360)) * 180) / Math.PI
  const latAt = (y: number) => ((2 * Math.atan(Math.exp((y * Math.PI) / 180)) - Math.PI / 2) * 180) / Math.PI
  const northM = WGS84.Inverse(latAt(mercator(lat) - 500 * degPerPx), 0, latAt(mercator(lat) + 500 * degPerPx), 0).s12!
  const told = metresPerPixel(lat, zoom) * 1000
  expect(Math.abs(told / eastM - 1)).toBeLessThan(0.0034)
  expect(Math.abs(told / northM - 1)).toBeLessThan(0.0034)
  expect(Math.abs(told / Math.sqrt(eastM * northM) - 1)).toBeLessThan(1e-5)
})
