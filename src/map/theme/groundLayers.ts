import type { LayerSpecification } from 'maplibre-gl'
import { byZoom, HAIRLINE, shown } from './scale.ts'
import { HATCH } from './structureLayers.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

/** Paper, and the grounds of fields and beds. */
export const groundLayers = ({ palette, overPhoto, sheet }: MapTheme): LayerSpecification[] => [
  { id: 'paper', type: 'background', paint: { 'background-color': palette.paper } },
  {
    id: 'field-ground',
    type: 'fill',
    source: 'fields',
    paint: { 'fill-color': palette.field, 'fill-opacity': overPhoto ? 0.06 : 1 },
  },
  {
    id: 'bed-ground',
    type: 'fill',
    source: 'beds',
    paint: {
      'fill-color':
        EMPHASIS[sheet].stretches === 'standing'
          ? ['case', ['get', 'standing'], palette.bed, palette.field]
          : palette.bed,
      'fill-opacity': overPhoto ? 0.28 : ['case', ['get', 'standing'], 1, 0.4],
    },
  },
  {
    id: 'bed-stock',
    type: 'fill',
    source: 'beds',
    filter: ['>', ['get', 'stock'], 0],
    layout: { visibility: shown(EMPHASIS[sheet].stock) },
    paint: { 'fill-pattern': HATCH },
  },
]

/** Outlines of fields and beds; a bed that is not there on the day is dashed, one that was dressed within a year dotted. */
export const outlineLayers = ({ palette, overPhoto, sheet }: MapTheme): LayerSpecification[] => [
  {
    id: 'bed-casing',
    type: 'line',
    source: 'beds',
    layout: { visibility: shown(overPhoto) },
    paint: { 'line-color': palette.paper, 'line-width': byZoom(0.5, 3, 4), 'line-opacity': byZoom(0, 0.75, 0.75) },
  },
  {
    id: 'bed-line',
    type: 'line',
    source: 'beds',
    filter: ['get', 'standing'],
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.ink, 'line-width': HAIRLINE },
  },
  {
    id: 'bed-line-away',
    type: 'line',
    source: 'beds',
    filter: ['!', ['get', 'standing']],
    paint: { 'line-color': palette.soft, 'line-width': HAIRLINE, 'line-dasharray': [4, 4] },
  },
  {
    id: 'bed-dressed',
    type: 'line',
    source: 'beds',
    filter: ['!=', ['get', 'dressed'], null],
    layout: { visibility: shown(EMPHASIS[sheet].dressings), 'line-cap': 'round' },
    paint: { 'line-color': palette.soft, 'line-width': byZoom(0.5, 2, 4), 'line-dasharray': [0.05, 4] },
  },
  {
    id: 'field-casing',
    type: 'line',
    source: 'fields',
    layout: { visibility: shown(overPhoto) },
    paint: { 'line-color': palette.paper, 'line-width': byZoom(3, 4, 5), 'line-opacity': 0.85 },
  },
  {
    id: 'field-line',
    type: 'line',
    source: 'fields',
    layout: { 'line-join': 'miter' },
    paint: { 'line-color': palette.ink, 'line-width': byZoom(1, 1.4, 2) },
  },
]
