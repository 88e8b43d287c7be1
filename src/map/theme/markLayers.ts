import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom, shown } from './scale.ts'
import { SANS } from './text.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

/** Things seen, as small crosses. */
export const observationLayers = ({ palette, sheet }: MapTheme): LayerSpecification[] => [
  {
    id: 'observation',
    type: 'symbol',
    source: 'observations',
    layout: {
      visibility: shown(EMPHASIS[sheet].observations),
      'text-field': '×',
      'text-font': SANS,
      'text-size': byZoom(13, 19, 26),
      'text-allow-overlap': true,
      'text-ignore-placement': true,
    },
    paint: { 'text-color': palette.madder, 'text-halo-color': palette.paper, 'text-halo-width': 1.2 },
  },
]

const isArea: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['Polygon', 'MultiPolygon']]]

/** Outside of an area, so that a narrow bed is not covered by its own outline; on the line of anything else. */
const outside = (px: number): ExpressionSpecification => ['case', isArea, -px, 0]
const OUTSIDE: ExpressionSpecification = [
  'interpolate',
  ['linear'],
  ['zoom'],
  16,
  outside(1.6),
  19,
  outside(2),
  22,
  outside(2.4),
]

/** What is selected, over everything: a wash and a heavy line in the accent. */
export const selectedLayers = ({ palette, sheet }: MapTheme): LayerSpecification[] => [
  {
    id: 'selected-ground',
    type: 'fill',
    source: 'selected',
    filter: isArea,
    paint: { 'fill-color': palette.madder, 'fill-opacity': EMPHASIS[sheet].surface ? 0 : 0.1 },
  },
  {
    id: 'selected-casing',
    type: 'line',
    source: 'selected',
    filter: ['!=', ['geometry-type'], 'Point'],
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.paper, 'line-width': byZoom(3.6, 4.6, 6), 'line-offset': OUTSIDE },
  },
  {
    id: 'selected-line',
    type: 'line',
    source: 'selected',
    filter: ['!=', ['geometry-type'], 'Point'],
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.madder, 'line-width': byZoom(2, 2.6, 3.4), 'line-offset': OUTSIDE },
  },
  {
    id: 'selected-point',
    type: 'circle',
    source: 'selected',
    filter: ['==', ['geometry-type'], 'Point'],
    paint: {
      'circle-radius': byZoom(6, 9, 13),
      'circle-color': palette.madder,
      'circle-opacity': 0.1,
      'circle-stroke-color': palette.madder,
      'circle-stroke-width': byZoom(2, 2.6, 3.4),
    },
  },
]

/** A radius that stands for the same ground at every zoom: the feature tells it in pixels at zoom 0. */
const GROUND_RADIUS: ExpressionSpecification = [
  'interpolate',
  ['exponential', 2],
  ['zoom'],
  0,
  ['get', 'radius_px'],
  24,
  ['*', ['get', 'radius_px'], 2 ** 24],
]

/** Where the device is: a ring as wide as it is unsure, and a dot. */
export const positionLayers = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'position-ground',
    type: 'circle',
    source: 'position',
    paint: {
      'circle-radius': GROUND_RADIUS,
      'circle-color': palette.madder,
      'circle-opacity': 0.14,
      'circle-stroke-color': palette.madder,
      'circle-stroke-width': 1,
    },
  },
  {
    id: 'position',
    type: 'circle',
    source: 'position',
    paint: {
      'circle-radius': 7,
      'circle-color': palette.madder,
      'circle-stroke-color': palette.paper,
      'circle-stroke-width': 3,
    },
  },
]
