import type { LayerSpecification } from 'maplibre-gl'
import { byZoom, shown } from './scale.ts'
import { EMPHASIS, type MapTheme } from './theme.ts'

/** Where they are not what the sheet is about, they come up only from close by. */
const OPACITY = { strong: 1, plain: byZoom(0.6, 0.9, 0.9), faint: byZoom(0, 0.45, 0.45) } as const

/**
 * Supports with the ticks of their posts: one left up is a double line, one put up for a season a single thin one. Ticks
 * are the dashes of a broad line, so they stand square to the run whichever way it lies; their spacing is not the posts'. On the sheet of supports the
 * posts themselves stand there from close by, where the recipe puts them.
 */
export const supportLayers = ({ palette, sheet, overPhoto }: MapTheme): LayerSpecification[] => {
  const opacity = OPACITY[EMPHASIS[sheet].supports]
  return [
    {
      id: 'support-casing',
      type: 'line',
      source: 'supports',
      layout: { visibility: shown(overPhoto) },
      paint: { 'line-color': palette.paper, 'line-width': byZoom(4.5, 7, 11), 'line-opacity': byZoom(0, 0.7, 0.7) },
    },
    {
      id: 'support-ticks',
      type: 'line',
      source: 'supports',
      paint: {
        'line-color': palette.ink,
        'line-width': byZoom(2.6, 8, 12),
        'line-dasharray': [0.16, 1.7],
        'line-opacity': sheet === 'supports' ? byZoom(1, 0, 0) : opacity,
      },
    },
    {
      id: 'support-season',
      type: 'line',
      source: 'supports',
      filter: ['!', ['get', 'permanent']],
      paint: { 'line-color': palette.ink, 'line-width': byZoom(0.7, 1.1, 1.6), 'line-opacity': opacity },
    },
    {
      id: 'support-permanent',
      type: 'line',
      source: 'supports',
      filter: ['get', 'permanent'],
      paint: {
        'line-color': palette.ink,
        'line-width': byZoom(0.6, 1.3, 1.8),
        'line-gap-width': byZoom(0.8, 2.4, 4),
        'line-opacity': opacity,
      },
    },
    {
      id: 'support-post',
      type: 'circle',
      source: 'posts',
      layout: { visibility: shown(sheet === 'supports') },
      paint: {
        'circle-radius': byZoom(0.5, 2.6, 6),
        'circle-color': ['case', ['get', 'end'], palette.ink, palette.paper],
        'circle-opacity': byZoom(0, 1, 1),
        'circle-stroke-color': palette.ink,
        'circle-stroke-width': byZoom(0, 1.2, 2),
      },
    },
  ]
}
