import type { LayerSpecification } from 'maplibre-gl'
import { byZoom, DOTTED, shown } from './scale.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

/** Canopies as translucent discs (outline dashed where the radius is assumed), and the root reach of juglone sources as a dotted ring. */
export const canopyLayers = ({ palette, sheet, overPhoto }: MapTheme): LayerSpecification[] => [
  {
    id: 'canopy-casing',
    type: 'line',
    source: 'canopies',
    layout: { visibility: shown(overPhoto) },
    paint: { 'line-color': palette.ink, 'line-width': byZoom(2.5, 3.5, 4.5), 'line-opacity': 0.4 },
  },
  {
    id: 'canopy-ground',
    type: 'fill',
    source: 'canopies',
    filter: ['==', ['get', 'ring'], 'canopy'],
    paint: { 'fill-color': palette.tree, 'fill-opacity': EMPHASIS[sheet].canopies === 'plain' ? 0.22 : 0.1 },
  },
  {
    id: 'canopy-line',
    type: 'line',
    source: 'canopies',
    filter: ['all', ['==', ['get', 'ring'], 'canopy'], ['!', ['get', 'assumed']]],
    paint: { 'line-color': overPhoto ? palette.paper : palette.tree, 'line-width': byZoom(0.7, 1.1, 1.6) },
  },
  {
    id: 'canopy-line-assumed',
    type: 'line',
    source: 'canopies',
    filter: ['all', ['==', ['get', 'ring'], 'canopy'], ['get', 'assumed']],
    paint: {
      'line-color': overPhoto ? palette.paper : palette.tree,
      'line-width': byZoom(0.7, 1.1, 1.6),
      'line-dasharray': [5, 3],
    },
  },
  {
    id: 'reach-line',
    type: 'line',
    source: 'canopies',
    filter: ['==', ['get', 'ring'], 'reach'],
    layout: { 'line-cap': 'round' },
    paint: {
      'line-color': overPhoto ? palette.paper : palette.tree,
      'line-width': byZoom(1, 1.5, 2),
      'line-dasharray': DOTTED,
      'line-opacity': EMPHASIS[sheet].canopies === 'plain' ? 1 : 0.6,
    },
  },
]

/** Trunks; a juglone source's has a ring about it. */
export const trunkLayers = ({ palette, overPhoto }: MapTheme): LayerSpecification[] => [
  {
    id: 'trunk-ring',
    type: 'circle',
    source: 'trees',
    filter: ['get', 'source'],
    paint: {
      'circle-radius': byZoom(3.2, 5, 8),
      'circle-color': palette.tree,
      'circle-opacity': 0,
      'circle-stroke-color': overPhoto ? palette.paper : palette.tree,
      'circle-stroke-width': byZoom(0.8, 1.2, 1.6),
    },
  },
  {
    id: 'trunk',
    type: 'circle',
    source: 'trees',
    paint: {
      'circle-radius': byZoom(1.6, 2.6, 5),
      'circle-color': palette.tree,
      'circle-stroke-color': palette.paper,
      'circle-stroke-width': overPhoto ? 1.2 : 0,
    },
  },
]
