import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SHEETS as MAP_SHEETS } from '../../../src/map/farmMap.ts'
import { SHEETS } from '../../../src/sheets/names.ts'
import { readAddress, writeAddress } from '../../../src/sheets/state/address.ts'

describe('the address', () => {
  it('names the sheets that the map has themes for', () => {
    expect(SHEETS).toEqual(MAP_SHEETS)
  })

  it('reads sheet, day and view as a person would write them', () => {
    expect(readAddress('#yield/2026-09-14/15.6412,46.3374,18.5')).toEqual({
      sheet: 'yield',
      on: '2026-09-14',
      view: { lon: 15.6412, lat: 46.3374, zoom: 18.5, bearing: 0 },
    })
    expect(readAddress('#ground')).toEqual({ sheet: 'ground', on: null, view: null })
    expect(readAddress('')).toEqual({ sheet: null, on: null, view: null })
  })

  it('leaves a day out, and reads none back', () => {
    const view = { lon: 15.6412, lat: 46.3374, zoom: 18.5, bearing: 0 }
    expect(writeAddress('yield', null, view)).toBe('#yield//15.6412,46.3374,18.5')
    expect(readAddress('#yield//15.6412,46.3374,18.5')).toEqual({ sheet: 'yield', on: null, view })
    expect(readAddress(writeAddress('yield', null, null))).toEqual({ sheet: 'yield', on: null, view: null })
  })

  it('takes nothing from what it cannot read', () => {
    const nothing = { sheet: null, on: null, view: null }
    expect(readAddress('#nowhere/2026-02-30/1,2')).toEqual(nothing)
    expect(readAddress('#//a,b,c')).toEqual(nothing)
    expect(readAddress('#ground/2025-02-29/0,91,3').view).toBeNull()
    expect(readAddress('#ground/2024-02-29/0,90,3').on).toBe('2024-02-29')
    expect(readAddress('#ground/2024-02-29/,,').view).toBeNull()
  })

  it('reads back what it writes, to a centimetre and a hundredth of a zoom', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SHEETS),
        fc.date({ min: new Date('1900-01-01'), max: new Date('2199-12-31'), noInvalidDate: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -85, max: 85, noNaN: true }),
        fc.double({ min: 0, max: 24, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (sheet, date, lon, lat, zoom, bearing) => {
          const on = date.toISOString().slice(0, 10)
          const read = readAddress(writeAddress(sheet, on, { lon, lat, zoom, bearing }))
          expect(read).toMatchObject({ sheet, on })
          expect(Math.abs(read.view!.lon - lon)).toBeLessThanOrEqual(0.51e-7)
          expect(Math.abs(read.view!.lat - lat)).toBeLessThanOrEqual(0.51e-7)
          expect(Math.abs(read.view!.zoom - zoom)).toBeLessThanOrEqual(0.0051)
          expect(Math.abs(read.view!.bearing - bearing)).toBeLessThanOrEqual(0.051)
        },
      ),
      { seed: 20261124, numRuns: 300 },
    )
  })
})
