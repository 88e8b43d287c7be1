import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { readPlace } from '../../../geo/plane/readPlace.ts'

const lonLat = (text: string): LonLat => {
  const read = readPlace(text)
  if (read.as !== 'lonLat') throw new Error(`${text} was read as ${JSON.stringify(read)}`)
  return read.at
}

describe('a place as it is typed', () => {
  it('is latitude and longitude, in that order, in degrees', () => {
    for (const text of [
      '46.3374, 15.6412',
      '46.3374 15.6412',
      '46.3374;15.6412',
      '46.3374°, 15.6412°',
      '46.3374° 15.6412°',
    ])
      expect(lonLat(text), text).toEqual([15.6412, 46.3374])
    for (const text of ['-33.5 151.25', '−33.5, 151.25', '33.5 S 151.25 E', 'S33.5 E151.25', '33.5s, 151.25e'])
      expect(lonLat(text), text).toEqual([151.25, -33.5])
    expect(lonLat('-33.5 -70.25')).toEqual([-70.25, -33.5])
  })

  it('may have a comma before its decimals', () => {
    for (const text of [
      '46,3374 15,6412',
      '46,3374, 15,6412',
      '46,3374; 15,6412',
      '46,3374,15,6412',
      'N 46,3374 E 15,6412',
    ])
      expect(lonLat(text), text).toEqual([15.6412, 46.3374])
    expect(lonLat('46,15')).toEqual([15, 46])
    expect(lonLat('46,5 15')).toEqual([15, 46.5])
  })

  it('may be in degrees, minutes and seconds, in any of the usual marks', () => {
    // Corner of the photo OSBS_029 as GDAL tells it in both ways: 29°41'33.66"N 81°59'24.36"W (C).
    for (const text of [
      `29°41'33.66"N 81°59'24.36"W`,
      '29° 41′ 33.66″ N, 81° 59′ 24.36″ W',
      '29º41’33.66”N 81º59’24.36”W',
      `29°41'33.66''N81°59'24.36''W`,
      'N 29° 41′ 33,66″, W 81° 59′ 24,36″',
      'N29 41 33.66 W81 59 24.36',
      '29 41 33.66 -81 59 24.36',
      '29:41:33.66 -81:59:24.36',
      '81°59′24.36″W 29°41′33.66″N',
      `-81°59'24.36" E, 29°41'33.66" N`.replace('-', '').replace('E', 'W'),
    ]) {
      const [lon, lat] = lonLat(text)
      expect(lat, text).toBeCloseTo(29.692683, 6)
      expect(lon, text).toBeCloseTo(-81.9901, 6)
    }
    expect(lonLat('46° 20.25′ N 15° 38.5′ E')).toEqual([15 + 38.5 / 60, 46 + 20.25 / 60])
    expect(lonLat(`46°20,25'N 15°38,5'E`)).toEqual([15 + 38.5 / 60, 46 + 20.25 / 60])
    expect(lonLat('46 20.25 15 38.5')).toEqual([15 + 38.5 / 60, 46 + 20.25 / 60])
  })

  it('may say by letters that longitude stands first', () =>
    expect(lonLat('15.6412 E, 46.3374 N')).toEqual([15.6412, 46.3374]))

  it('may be in metres or feet from the farm’s middle, east first where no letter says otherwise', () => {
    for (const text of [
      '12.5 m, -3 m',
      '12,5 m; -3 m',
      '12.5m E 3m S',
      'E 12.5 m, S 3 m',
      '3 m S 12.5 m E',
      '12.5 m −3 m',
    ])
      expect(readPlace(text), text).toEqual({ as: 'metres', at: [12.5, -3] })
    // 1 ft = 0.3048 m (NIST Handbook 44, appendix C; C).
    expect(readPlace('100 ft W, 10 ft N')).toEqual({ as: 'metres', at: [-30.48, 3.048] })
  })

  it('is not guessed at, and is told what is wrong', () => {
    for (const text of ['here', '46.3374', '1, 2, 3', '46 15 3', '46.33 N and 15', '', '12 m', '46°', 'N E', '5 10 m'])
      expect(readPlace(text), text).toMatchObject({ as: 'fault', detail: /can’t be read/ })
    const told = (text: string) => (readPlace(text) as { detail: string }).detail
    expect(told('95, 10')).toMatch(/Latitude runs to 90/)
    expect(told('10, 190')).toMatch(/Longitude runs to 180/)
    expect(told('1 N 2 S')).toMatch(/along the same line/)
    expect(told('46°61′N 15°E')).toMatch(/below 60/)
    expect(told('46.5°20′N 15°E')).toMatch(/Only the last/)
    expect(told('-46 N 15 E')).toMatch(/not both/)
    expect(told('3 m N 2 m S')).toMatch(/along the same line/)
  })

  it('comes back as it was written out, whatever the form', () => {
    const lat = fc.integer({ min: -89_999_999, max: 89_999_999 }).map((n) => n / 1e6)
    const lon = fc.integer({ min: -179_999_999, max: 179_999_999 }).map((n) => n / 1e6)
    const parts = (degrees: number) => {
      const size = Math.abs(degrees)
      const whole = Math.floor(size)
      const minutes = Math.floor((size - whole) * 60)
      return [whole, minutes, ((size - whole) * 60 - minutes) * 60] as const
    }
    const dms = (degrees: number, letters: string, comma: boolean) => {
      const [d, m, s] = parts(degrees)
      const seconds = Math.min(s, 59.99999).toFixed(5)
      return `${d}° ${m}′ ${comma ? seconds.replace('.', ',') : seconds}″ ${letters[degrees < 0 ? 1 : 0]}`
    }
    fc.assert(
      fc.property(lat, lon, fc.boolean(), (lat, lon, comma) => {
        const plain = (n: number) => (comma ? n.toFixed(6).replace('.', ',') : n.toFixed(6))
        expect(lonLat(`${plain(lat)} ${plain(lon)}`)).toEqual([lon, lat])
        expect(lonLat(`${plain(lat)}; ${plain(lon)}`)).toEqual([lon, lat])
        const [x, y] = lonLat(`${dms(lat, 'NS', comma)} ${dms(lon, 'EW', comma)}`)
        expect(Math.hypot(x - lon, y - lat)).toBeLessThan(1e-8)
      }),
      { seed: 20260311, numRuns: 300 },
    )
  })
})
