import type { ExpressionSpecification, FilterSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom, DOTTED, shown } from './scale.ts'
import type { MapTheme } from './theme.ts'

const WATER = ['water', 'pond', 'lake', 'river', 'stream', 'ditch', 'reservoir']
const KNOWN = ['fence', 'gate', 'path', 'water line', 'windbreak', ...WATER]
const KIND: ExpressionSpecification = ['downcase', ['get', 'kind']]
const isKind = (kind: string): ExpressionSpecification => ['==', KIND, kind]
const isWater: ExpressionSpecification = ['in', KIND, ['literal', WATER]]
const isArea: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['Polygon', 'MultiPolygon']]]
const isLine: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['LineString', 'MultiLineString']]]
const lineOf = (kind: string): FilterSpecification => ['all', isKind(kind), ['!', ['==', ['geometry-type'], 'Point']]]

/** Name of the hatch that fills buildings; the map draws it in the present ink. */
export const HATCH = 'hatch'

/** Grounds of what is built: water filled, anything else hatched. */
export const structureGrounds = ({ palette }: MapTheme): LayerSpecification[] => [
  {
    id: 'structure-water',
    type: 'fill',
    source: 'structures',
    filter: ['all', isArea, isWater],
    paint: { 'fill-color': palette.water, 'fill-opacity': 0.28 },
  },
  {
    id: 'structure-path-ground',
    type: 'fill',
    source: 'structures',
    filter: ['all', isArea, isKind('path')],
    paint: { 'fill-color': palette.rule, 'fill-opacity': 0.7 },
  },
  {
    id: 'structure-windbreak-ground',
    type: 'fill',
    source: 'structures',
    filter: ['all', isArea, isKind('windbreak')],
    paint: { 'fill-color': palette.tree, 'fill-opacity': 0.3 },
  },
  {
    id: 'structure-hatch',
    type: 'fill',
    source: 'structures',
    filter: ['all', isArea, ['!', ['in', KIND, ['literal', ['path', 'windbreak', ...WATER]]]]],
    paint: { 'fill-pattern': HATCH },
  },
]

/** Lines of what is built, told apart by their dash: fence dash-dot, path dotted, water line long blue dash, stream solid blue, windbreak toothed, gate a gap with its posts. */
export const structureLayers = ({ palette, overPhoto }: MapTheme): LayerSpecification[] => [
  {
    id: 'structure-casing',
    type: 'line',
    source: 'structures',
    filter: ['!', ['==', ['geometry-type'], 'Point']],
    layout: { visibility: shown(overPhoto) },
    paint: { 'line-color': palette.ink, 'line-width': byZoom(2.5, 4, 5), 'line-opacity': 0.4 },
  },
  {
    id: 'structure-line',
    type: 'line',
    source: 'structures',
    filter: [
      'all',
      ['!', ['==', ['geometry-type'], 'Point']],
      ['any', ['!', ['in', KIND, ['literal', KNOWN]]], ['all', isArea, ['!', isKind('path')]]],
    ],
    paint: { 'line-color': overPhoto ? palette.paper : palette.ink, 'line-width': byZoom(0.8, 1.2, 1.6) },
  },
  {
    id: 'structure-path',
    type: 'line',
    source: 'structures',
    filter: ['all', isLine, isKind('path')],
    layout: { 'line-cap': 'round' },
    paint: {
      'line-color': overPhoto ? palette.paper : palette.soft,
      'line-width': byZoom(1.2, 2, 3),
      'line-dasharray': DOTTED,
    },
  },
  {
    id: 'structure-water-line',
    type: 'line',
    source: 'structures',
    filter: ['all', isLine, isKind('water line')],
    paint: {
      'line-color': overPhoto ? palette.paper : palette.water,
      'line-width': byZoom(1.2, 2, 3),
      'line-dasharray': [6, 2],
    },
  },
  {
    id: 'structure-stream',
    type: 'line',
    source: 'structures',
    filter: ['all', isLine, isWater],
    paint: { 'line-color': overPhoto ? palette.paper : palette.water, 'line-width': byZoom(1.6, 2.6, 4) },
  },
  {
    id: 'structure-windbreak-teeth',
    type: 'line',
    source: 'structures',
    filter: ['all', isLine, isKind('windbreak')],
    paint: {
      'line-color': palette.tree,
      'line-width': byZoom(6, 11, 20),
      'line-dasharray': [0.35, 0.45],
      'line-opacity': 0.55,
    },
  },
  {
    id: 'structure-windbreak',
    type: 'line',
    source: 'structures',
    filter: ['all', isLine, isKind('windbreak')],
    paint: { 'line-color': palette.tree, 'line-width': byZoom(1.6, 2.6, 4) },
  },
  {
    id: 'structure-fence',
    type: 'line',
    source: 'structures',
    filter: lineOf('fence'),
    paint: {
      'line-color': overPhoto ? palette.paper : palette.ink,
      'line-width': byZoom(0.9, 1.3, 1.8),
      'line-dasharray': [9, 2.5, 1.2, 2.5],
    },
  },
  {
    id: 'structure-gate-gap',
    type: 'line',
    source: 'structures',
    filter: lineOf('gate'),
    paint: { 'line-color': palette.paper, 'line-width': byZoom(5, 8, 12) },
  },
  {
    id: 'structure-gate',
    type: 'line',
    source: 'structures',
    filter: lineOf('gate'),
    paint: { 'line-color': palette.ink, 'line-width': byZoom(0.6, 1, 1.4), 'line-gap-width': byZoom(3, 5, 8) },
  },
  {
    id: 'structure-point',
    type: 'circle',
    source: 'structures',
    filter: ['==', ['geometry-type'], 'Point'],
    paint: {
      'circle-radius': byZoom(2, 3.5, 5),
      'circle-color': palette.paper,
      'circle-stroke-color': palette.ink,
      'circle-stroke-width': byZoom(1, 1.4, 2),
    },
  },
]
