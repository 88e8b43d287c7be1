import { describe, expect, it } from 'vitest'
import { readPlace } from '../../../src/sheets/start/readPlace.ts'

describe('a place as it is typed', () => {
  it('is latitude and longitude, in that order, in degrees or with minutes and seconds', () => {
    expect(readPlace('46.3374, 15.6412')).toEqual([15.6412, 46.3374])
    expect(readPlace('-33.5 151.25')).toEqual([151.25, -33.5])
    expect(readPlace('46.3374 N 15.6412 E')).toEqual([15.6412, 46.3374])
    // Corner of the photo OSBS_029 in degrees, minutes and seconds, as GDAL tells it (C).
    const [lon, lat] = readPlace(`29°41'33.66"N 81°59'24.36"W`) as [number, number]
    expect(lat).toBeCloseTo(29.692683, 6)
    expect(lon).toBeCloseTo(-81.9901, 6)
  })

  it('may say by letters that longitude stands first', () => {
    expect(readPlace('15.6412 E, 46.3374 N')).toEqual([15.6412, 46.3374])
  })

  it('may be left out, and is not guessed at', () => {
    expect(readPlace('  ')).toBeNull()
    for (const text of ['here', '46.3374', '1, 2, 3', '95, 10', '10, 190', '1 N 2 S', '46.33 N and 15']) {
      expect(readPlace(text)).toBe('unread')
    }
  })
})
