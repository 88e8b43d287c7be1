import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom } from './scale.ts'
import type { MapTheme } from './theme.ts'

const is = (...as: readonly string[]): ExpressionSpecification => ['in', ['get', 'as'], ['literal', [...as]]]

/** What is not kept yet, over everything: grounds and lines in madder as on the pen, places left out of a walk faint. */
export const proposedLayers = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'proposed-ground',
    type: 'fill',
    source: 'proposed',
    filter: is('bed', 'shape', 'accuracy'),
    paint: {
      'fill-color': ['case', is('accuracy'), palette.water, palette.madder],
      'fill-opacity': 0.14,
    },
  },
  {
    id: 'proposed-casing',
    type: 'line',
    source: 'proposed',
    filter: is('bed', 'shape', 'track'),
    paint: { 'line-color': palette.paper, 'line-width': byZoom(0.5, 3, 4.5), 'line-opacity': byZoom(0, 0.7, 0.8) },
  },
  {
    id: 'proposed-line',
    type: 'line',
    source: 'proposed',
    filter: is('bed', 'shape', 'accuracy'),
    layout: { 'line-join': 'miter' },
    paint: {
      'line-color': ['case', is('accuracy'), palette.water, palette.madder],
      'line-width': byZoom(0.6, 1.2, 2),
    },
  },
  {
    id: 'proposed-row',
    type: 'line',
    source: 'proposed',
    filter: is('row', 'track'),
    paint: { 'line-color': palette.madder, 'line-width': byZoom(0.5, 1, 1.6), 'line-dasharray': [3, 2] },
  },
  {
    id: 'proposed-left-out',
    type: 'circle',
    source: 'proposed',
    filter: is('left out'),
    paint: {
      'circle-radius': 3,
      'circle-color': palette.paper,
      'circle-stroke-color': palette.soft,
      'circle-stroke-width': 1.2,
    },
  },
  {
    id: 'proposed-place',
    type: 'circle',
    source: 'proposed',
    filter: is('corner', 'here'),
    paint: {
      'circle-radius': ['case', is('here'), 7, 5],
      'circle-color': ['case', is('here'), palette.water, palette.paper],
      'circle-stroke-color': ['case', is('here'), palette.paper, palette.madder],
      'circle-stroke-width': 2,
    },
  },
]
