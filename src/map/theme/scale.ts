import type { ExpressionSpecification } from 'maplibre-gl'

/** A size in pixels that grows with the zoom: at zoom 16, 19 and 22, straight lines between. */
export const byZoom = (far: number, mid: number, near: number): ExpressionSpecification => [
  'interpolate',
  ['linear'],
  ['zoom'],
  16,
  far,
  19,
  mid,
  22,
  near,
]

/** The thinnest line of the plan. */
export const HAIRLINE = byZoom(0.5, 1, 1.4)

export const shown = (yes: boolean): 'visible' | 'none' => (yes ? 'visible' : 'none')

/** Dashes are in widths of their line. */
export const DOTTED = [0.01, 3]
