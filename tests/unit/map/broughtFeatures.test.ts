import type { Polygon } from 'geojson'
import type { ExpressionSpecification } from 'maplibre-gl'
import { describe, expect, it } from 'vitest'
import { refusedShape } from '../../../geo/exchange/layers/refusedShape.ts'
import { broughtFeatures } from '../../../src/map/broughtFeatures.ts'
import { broughtLayers } from '../../../src/map/theme/broughtLayers.ts'
import { DAY, NIGHT, SUN } from '../../../src/map/theme/palette.ts'

/** An outline that crosses itself: its two halves run opposite ways, so that its area by the shoelace formula is nothing. */
const CROSSED: Polygon = {
  type: 'Polygon',
  coordinates: [
    [
      [8, 47],
      [8.001, 47.001],
      [8.001, 47],
      [8, 47.001],
      [8, 47],
    ],
  ],
}

describe('shapes of a file before they are kept', () => {
  it('are outlines where they would not be kept, since tiles leave out what has no area', () => {
    const drawn = broughtFeatures({ kept: [CROSSED], leftOut: [CROSSED], notTaken: [CROSSED] })
    const outline = { type: 'MultiLineString', coordinates: CROSSED.coordinates }
    expect(drawn.map(({ properties, geometry }) => [properties!.as, geometry])).toEqual([
      ['notTaken', outline],
      ['kept', CROSSED],
      ['leftOut', outline],
    ])
  })
  it('of several parts, and of several sorts, are all there', () => {
    const parts = { type: 'MultiPolygon' as const, coordinates: [CROSSED.coordinates, CROSSED.coordinates] }
    const point = { type: 'Point' as const, coordinates: [8, 47] }
    const [one, other] = broughtFeatures({
      kept: [],
      leftOut: [parts, { type: 'GeometryCollection', geometries: [CROSSED, point] }],
      notTaken: [],
    })
    expect(one!.geometry).toEqual({
      type: 'MultiLineString',
      coordinates: [CROSSED.coordinates[0], CROSSED.coordinates[0]],
    })
    expect(other!.geometry).toEqual({
      type: 'GeometryCollection',
      geometries: [{ type: 'MultiLineString', coordinates: CROSSED.coordinates }, point],
    })
  })
  it('are told apart by dash and by colour, another in each look', () => {
    const lineOf = (palette: typeof DAY, id: string) => {
      const layer = broughtLayers({ sheet: 'ground', palette, overPhoto: false, today: '2026-07-01' }).find(
        (one) => one.id === id,
      )
      return layer!.paint as { 'line-color': string | ExpressionSpecification; 'line-dasharray': number[] }
    }
    const leftOut = [DAY, NIGHT, SUN].map((palette) => lineOf(palette, 'brought-left-out'))
    expect(new Set(leftOut.map((paint) => paint['line-color'])).size).toBe(3)
    for (const [i, palette] of [DAY, NIGHT, SUN].entries()) {
      const others = lineOf(palette, 'brought-line')
      expect(others['line-dasharray']).not.toEqual(leftOut[i]!['line-dasharray'])
      expect(others['line-color']).not.toContain(leftOut[i]!['line-color'])
    }
  })
})

describe('what can be drawn of a geometry that can’t be used', () => {
  it('is the line of an outline that is not closed', () => {
    const open = CROSSED.coordinates[0]!.slice(0, -1)
    expect(refusedShape({ type: 'Polygon', coordinates: [open] })).toEqual({
      type: 'MultiLineString',
      coordinates: [open],
    })
  })
  it('is as much of it as has a place on earth', () => {
    const coordinates = [[8, 47], [8.1, 147], 'x', [8.2, Number.NaN], [8.3, 47, 400]]
    expect(refusedShape({ type: 'LineString', coordinates })).toEqual({
      type: 'MultiLineString',
      coordinates: [
        [
          [8, 47],
          [8.3, 47],
        ],
      ],
    })
    expect(refusedShape({ type: 'LineString', coordinates: [[8, 47]] })).toEqual({
      type: 'MultiPoint',
      coordinates: [[8, 47]],
    })
  })
  it('is nothing where there is nothing', () => {
    for (const nothing of [null, 'x', {}, { coordinates: [] }, { coordinates: [[999, 999]] }, { geometries: [{}] }])
      expect(refusedShape(nothing)).toBeNull()
  })
})
