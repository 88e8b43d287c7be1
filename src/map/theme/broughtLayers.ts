import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom } from './scale.ts'
import type { MapTheme } from './theme.ts'

const isAs = (as: 'kept' | 'leftOut' | 'notTaken'): ExpressionSpecification => ['==', ['get', 'as'], as]
const isPoint: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['Point', 'MultiPoint']]]
const isArea: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['Polygon', 'MultiPolygon']]]

/**
 * Shapes of a file before they are kept, on a casing that parts them from what is there: those that would be kept in long dashes of
 * the accent, those left out in short heavy ones of ink, as a faulty outline is drawn, those not taken in soft ones.
 */
export const broughtLayers = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'brought-ground',
    type: 'fill',
    source: 'brought',
    filter: ['all', isAs('kept'), isArea],
    paint: { 'fill-color': palette.madder, 'fill-opacity': 0.12 },
  },
  {
    id: 'brought-casing',
    type: 'line',
    source: 'brought',
    filter: ['!', isPoint],
    paint: { 'line-color': palette.paper, 'line-width': byZoom(3, 4, 5), 'line-opacity': 0.9 },
  },
  {
    id: 'brought-line',
    type: 'line',
    source: 'brought',
    filter: ['all', ['!', isPoint], ['!', isAs('leftOut')]],
    paint: {
      'line-color': ['case', isAs('kept'), palette.madder, palette.soft],
      'line-width': byZoom(1.4, 1.8, 2.2),
      'line-dasharray': [3, 1.5],
    },
  },
  {
    id: 'brought-left-out',
    type: 'line',
    source: 'brought',
    filter: ['all', ['!', isPoint], isAs('leftOut')],
    paint: { 'line-color': palette.ink, 'line-width': byZoom(2.2, 2.6, 3), 'line-dasharray': [0.7, 1] },
  },
  {
    id: 'brought-point',
    type: 'circle',
    source: 'brought',
    filter: isPoint,
    paint: {
      'circle-radius': byZoom(3, 4, 5),
      'circle-color': ['case', isAs('leftOut'), palette.ink, palette.paper],
      'circle-stroke-color': [
        'case',
        isAs('kept'),
        palette.madder,
        ['case', isAs('leftOut'), palette.paper, palette.soft],
      ],
      'circle-stroke-width': 2,
    },
  },
]
