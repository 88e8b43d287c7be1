import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom, shown } from './scale.ts'
import { SANS } from './text.ts'
import type { MapTheme } from './theme.ts'

const is = (...as: readonly string[]): ExpressionSpecification => ['in', ['get', 'as'], ['literal', [...as]]]

/** From afar the dots of many beds would run together and drown the rows that are chosen. */
const QUIET_FROM_AFAR: ExpressionSpecification = ['interpolate', ['linear'], ['zoom'], 17, 0.12, 18.5, 0.3, 20, 0.9]

/** Shadows on the ground, one even tone where several lie on each other; over a photo they let it through. */
export const shadowLayers = ({ palette, sheet, overPhoto }: MapTheme): LayerSpecification[] => [
  {
    id: 'siting-shadow',
    type: 'fill',
    source: 'siting',
    filter: is('shadow'),
    layout: { visibility: shown(sheet === 'siting') },
    paint: { 'fill-color': palette.shade, 'fill-opacity': overPhoto ? 0.5 : 1, 'fill-antialias': false },
  },
]

/** Canopies and root reach of another year, beds that lie under them, and rows that a plan takes or could take. */
export const sitingLayers = ({ palette, sheet }: MapTheme): LayerSpecification[] => {
  const layout = { visibility: shown(sheet === 'siting') }
  return [
    {
      id: 'siting-under',
      type: 'line',
      source: 'siting',
      filter: is('under'),
      layout: { ...layout, 'line-join': 'miter' },
      paint: { 'line-color': palette.tree, 'line-width': byZoom(1.4, 2.6, 4) },
    },
    {
      id: 'siting-canopy-ground',
      type: 'fill',
      source: 'siting',
      filter: is('canopy'),
      layout,
      paint: { 'fill-color': palette.tree, 'fill-opacity': 0.16 },
    },
    {
      id: 'siting-canopy',
      type: 'line',
      source: 'siting',
      filter: is('canopy'),
      layout,
      paint: { 'line-color': palette.tree, 'line-width': byZoom(1, 1.8, 2.6) },
    },
    {
      id: 'siting-reach',
      type: 'line',
      source: 'siting',
      filter: is('reach'),
      layout,
      paint: { 'line-color': palette.tree, 'line-width': byZoom(1, 1.8, 2.6), 'line-dasharray': [4, 3] },
    },
    {
      id: 'siting-candidate',
      type: 'line',
      source: 'siting',
      filter: is('candidate'),
      layout: { ...layout, 'line-cap': 'round' },
      paint: {
        'line-color': palette.ink,
        'line-width': byZoom(0.6, 1.4, 2),
        'line-dasharray': [0.05, 3],
        'line-opacity': QUIET_FROM_AFAR,
      },
    },
    {
      id: 'siting-row-casing',
      type: 'line',
      source: 'siting',
      filter: is('chosen', 'season', 'looked at'),
      layout,
      paint: { 'line-color': palette.paper, 'line-width': byZoom(4, 7, 10) },
    },
    {
      id: 'siting-row',
      type: 'line',
      source: 'siting',
      filter: is('chosen'),
      layout,
      paint: { 'line-color': palette.madder, 'line-width': byZoom(2, 3.4, 5) },
    },
    {
      id: 'siting-row-later',
      type: 'line',
      source: 'siting',
      filter: is('later'),
      layout,
      paint: { 'line-color': palette.madder, 'line-width': byZoom(1.6, 2.4, 3.4), 'line-dasharray': [2.2, 1.4] },
    },
    {
      id: 'siting-row-season',
      type: 'line',
      source: 'siting',
      filter: is('season'),
      layout,
      paint: { 'line-color': palette.madder, 'line-width': byZoom(2, 3.4, 5), 'line-dasharray': [0.4, 0.8] },
    },
    {
      id: 'siting-row-looked',
      type: 'line',
      source: 'siting',
      filter: is('looked at'),
      layout,
      paint: { 'line-color': palette.ink, 'line-width': byZoom(2, 3.4, 5) },
    },
    {
      id: 'siting-row-words',
      type: 'symbol',
      source: 'siting',
      minzoom: 17,
      filter: ['has', 'words'],
      layout: {
        ...layout,
        'symbol-placement': 'line-center',
        'text-field': ['get', 'words'],
        'text-font': SANS,
        'text-size': byZoom(10, 11.5, 14),
        'text-offset': [0, -0.9],
        // Where there is no room for all, what climbs is told before what does not.
        'symbol-sort-key': ['case', ['==', ['get', 'words'], 'nothing'], 1, 0],
      },
      paint: { 'text-color': palette.ink, 'text-halo-color': palette.paper, 'text-halo-width': 1.6 },
    },
  ]
}
