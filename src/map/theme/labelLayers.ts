import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { byZoom, shown } from './scale.ts'
import { SANS, SERIF } from './text.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

const NAME_OR_SPECIES: ExpressionSpecification = ['coalesce', ['get', 'name'], ['get', 'species']]
/** From afar only the trees that matter to what grows near them have a name. */
const TREE_NAME: ExpressionSpecification = [
  'step',
  ['zoom'],
  ['case', ['get', 'source'], NAME_OR_SPECIES, ''],
  18,
  NAME_OR_SPECIES,
]
const isArea: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['Polygon', 'MultiPolygon']]]
const isLine: ExpressionSpecification = ['in', ['geometry-type'], ['literal', ['LineString', 'MultiLineString']]]

/** Words on the plan, each from the zoom at which there is room for it. Field names lie along the field's upper edge, bed names at the bed's head. */
export const labelLayers = ({ palette, sheet, overPhoto }: MapTheme): LayerSpecification[] => {
  const { stretches, supports } = EMPHASIS[sheet]
  const ink = { 'text-color': palette.ink, 'text-halo-color': palette.paper, 'text-halo-width': overPhoto ? 2.2 : 1.4 }
  const tinted = (colour: string) => ({ ...ink, 'text-color': overPhoto ? palette.ink : colour })
  return [
    {
      id: 'support-name',
      type: 'symbol',
      source: 'supports',
      minzoom: 19.5,
      layout: {
        visibility: shown(supports === 'strong'),
        'symbol-placement': 'line',
        'symbol-spacing': 400,
        'text-field': ['get', 'system_name'],
        'text-font': SANS,
        'text-size': byZoom(10, 11, 14),
        'text-offset': [0, -1],
      },
      paint: ink,
    },
    {
      id: 'crop-name',
      type: 'symbol',
      source: 'stretches',
      minzoom: 18.7,
      layout: {
        visibility: shown(stretches === 'standing'),
        'symbol-placement': 'line',
        'symbol-spacing': 300,
        'text-field': ['get', 'crop_name'],
        'text-font': SANS,
        'text-size': byZoom(10, 11, 14),
        'text-offset': [0, -0.8],
      },
      paint: tinted(palette.tree),
    },
    {
      id: 'structure-name',
      type: 'symbol',
      source: 'structures',
      minzoom: 17.5,
      filter: ['!', isLine],
      layout: {
        'text-field': ['coalesce', ['get', 'name'], ['get', 'kind']],
        'text-font': SANS,
        'text-size': byZoom(11, 12.5, 14),
        'text-anchor': ['case', isArea, 'center', 'top'],
        'text-offset': ['case', isArea, ['literal', [0, 0]], ['literal', [0, 0.6]]],
      },
      paint: tinted(palette.soft),
    },
    {
      id: 'structure-line-name',
      type: 'symbol',
      source: 'structures',
      minzoom: 17.5,
      filter: isLine,
      layout: {
        'symbol-placement': 'line',
        'symbol-spacing': 500,
        'text-field': ['coalesce', ['get', 'name'], ['get', 'kind']],
        'text-font': SANS,
        'text-size': byZoom(10, 11, 13),
        'text-offset': [0, -0.9],
      },
      paint: tinted(palette.soft),
    },
    {
      id: 'tree-name',
      type: 'symbol',
      source: 'trees',
      minzoom: 17,
      layout: {
        'text-field': TREE_NAME,
        'text-font': SANS,
        'text-size': byZoom(11, 12.5, 14),
        'text-anchor': 'top',
        'text-offset': [0, 0.7],
        'text-max-width': 8,
      },
      paint: tinted(palette.tree),
    },
    {
      id: 'bed-name',
      type: 'symbol',
      source: 'bed-names',
      minzoom: 18.2,
      layout: {
        'text-field': ['get', 'name'],
        'text-font': SANS,
        'text-size': byZoom(8, 11, 15),
        'text-anchor': 'left',
        'text-offset': [0.35, 0],
        'text-rotate': ['get', 'turn'],
        'text-rotation-alignment': 'map',
        'text-padding': 1,
      },
      paint: ink,
    },
    {
      id: 'field-name',
      type: 'symbol',
      source: 'field-names',
      layout: {
        'text-field': ['get', 'name'],
        'text-font': SERIF,
        'text-size': byZoom(14, 19, 26),
        'text-anchor': 'bottom-left',
        'text-offset': [0.1, -0.15],
        'text-rotate': ['get', 'turn'],
        'text-rotation-alignment': 'map',
        'text-max-width': 30,
        'text-padding': 0,
      },
      paint: { ...ink, 'text-halo-width': overPhoto ? 2.6 : 1.8 },
    },
  ]
}
