import type { LayerSpecification } from 'maplibre-gl'
import { byZoom, HAIRLINE, shown } from './scale.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

/** Rows as the thinnest lines, and the stretches of them that are planted: planned ones broken, held ones solid, unheld ones dashed. */
export const rowLayers = ({ palette, sheet, today }: MapTheme): LayerSpecification[] => {
  const { rows, stretches } = EMPHASIS[sheet]
  return [
    {
      id: 'row-line',
      type: 'line',
      source: 'rows',
      minzoom: 17.5,
      layout: { visibility: shown(rows !== 'off') },
      paint: {
        'line-color': rows === 'plain' ? palette.ink : palette.soft,
        'line-width': HAIRLINE,
        'line-opacity': rows === 'plain' ? 0.75 : 0.4,
      },
    },
    {
      id: 'stretch-standing',
      type: 'line',
      source: 'stretches',
      filter: ['<=', ['get', 'set_out'], today],
      layout: { visibility: shown(stretches === 'standing'), 'line-cap': 'butt' },
      paint: { 'line-color': palette.tree, 'line-width': byZoom(1.4, 2.6, 5) },
    },
    {
      id: 'stretch-planned',
      type: 'line',
      source: 'stretches',
      filter: ['>', ['get', 'set_out'], today],
      layout: { visibility: shown(stretches === 'standing'), 'line-cap': 'butt' },
      paint: { 'line-color': palette.tree, 'line-width': byZoom(1.4, 2.6, 5), 'line-dasharray': [1.2, 1] },
    },
    {
      id: 'stretch-held',
      type: 'line',
      source: 'stretches',
      filter: ['all', ['get', 'climbs'], ['get', 'held']],
      layout: { visibility: shown(stretches === 'held') },
      paint: { 'line-color': palette.ink, 'line-width': byZoom(1.2, 2, 3) },
    },
    {
      id: 'stretch-unheld',
      type: 'line',
      source: 'stretches',
      filter: ['all', ['get', 'climbs'], ['!', ['get', 'held']]],
      layout: { visibility: shown(stretches === 'held') },
      paint: { 'line-color': palette.madder, 'line-width': byZoom(1.8, 3, 5), 'line-dasharray': [2.4, 1.2] },
    },
  ]
}
