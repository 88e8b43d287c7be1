import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import type { Ramp } from '../farmMap.ts'
import { rampStops } from './ramps.ts'
import { byZoom, shown } from './scale.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

const colourOf = (ramp: Ramp): ExpressionSpecification => [
  'interpolate',
  ['linear'],
  ['feature-state', 'value'],
  ...(rampStops(ramp).flat() as [number, string]),
]
const isUntold: ExpressionSpecification = ['==', ['feature-state', 'value'], null]

/** Yield cells in the ramp's colours, a cell with nothing to tell left as ground. */
export const surfaceLayers = ({ sheet }: MapTheme, ramp: Ramp): LayerSpecification[] => [
  {
    id: 'surface',
    type: 'fill',
    source: 'surface',
    layout: { visibility: shown(EMPHASIS[sheet].surface) },
    paint: {
      'fill-color': ['case', isUntold, 'rgba(0, 0, 0, 0)', colourOf(ramp)],
      'fill-antialias': false,
    },
  },
]

/** Outlines of low-yield zones: a broad dash on a casing, over whatever colours lie there. */
export const zoneLayers = ({ sheet, palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'zone-ground',
    type: 'fill',
    source: 'zones',
    layout: { visibility: shown(sheet === 'yield') },
    paint: { 'fill-color': palette.ink, 'fill-opacity': 0.001 },
  },
  {
    id: 'zone-casing',
    type: 'line',
    source: 'zones',
    layout: { visibility: shown(sheet === 'yield') },
    paint: { 'line-color': palette.paper, 'line-width': byZoom(4, 5, 7), 'line-opacity': 0.85 },
  },
  {
    id: 'zone-line',
    type: 'line',
    source: 'zones',
    layout: { visibility: shown(sheet === 'yield') },
    paint: { 'line-color': palette.ink, 'line-width': byZoom(1.8, 2.4, 3), 'line-dasharray': [3, 1.6] },
  },
]
