import type { LayerSpecification } from 'maplibre-gl'
import { byZoom } from './scale.ts'
import type { MapTheme } from './theme.ts'

/** Shapes of a file before they are kept: dashed, those that would be kept in the accent, on a casing that parts them from what is there. */
export const broughtLayers = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'brought-ground',
    type: 'fill',
    source: 'brought',
    filter: ['all', ['get', 'kept'], ['==', ['geometry-type'], 'Polygon']],
    paint: { 'fill-color': palette.madder, 'fill-opacity': 0.12 },
  },
  {
    id: 'brought-casing',
    type: 'line',
    source: 'brought',
    filter: ['!=', ['geometry-type'], 'Point'],
    paint: { 'line-color': palette.paper, 'line-width': byZoom(3, 4, 5), 'line-opacity': 0.9 },
  },
  {
    id: 'brought-line',
    type: 'line',
    source: 'brought',
    filter: ['!=', ['geometry-type'], 'Point'],
    paint: {
      'line-color': ['case', ['get', 'kept'], palette.madder, palette.soft],
      'line-width': byZoom(1.4, 1.8, 2.2),
      'line-dasharray': [3, 1.5],
    },
  },
  {
    id: 'brought-point',
    type: 'circle',
    source: 'brought',
    filter: ['==', ['geometry-type'], 'Point'],
    paint: {
      'circle-radius': byZoom(3, 4, 5),
      'circle-color': palette.paper,
      'circle-stroke-color': ['case', ['get', 'kept'], palette.madder, palette.soft],
      'circle-stroke-width': 2,
    },
  },
]
