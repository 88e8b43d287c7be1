import type { LayerSpecification } from 'maplibre-gl'
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

/** What is selected, over everything: a wash and a heavy line in the accent. */
export const selectedLayers = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'selected-ground',
    type: 'fill',
    source: 'selected',
    filter: ['in', ['geometry-type'], ['literal', ['Polygon', 'MultiPolygon']]],
    paint: { 'fill-color': palette.madder, 'fill-opacity': 0.1 },
  },
  {
    id: 'selected-casing',
    type: 'line',
    source: 'selected',
    filter: ['!=', ['geometry-type'], 'Point'],
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.paper, 'line-width': byZoom(4.5, 5.5, 7) },
  },
  {
    id: 'selected-line',
    type: 'line',
    source: 'selected',
    filter: ['!=', ['geometry-type'], 'Point'],
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.madder, 'line-width': byZoom(2.2, 2.8, 3.6) },
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
