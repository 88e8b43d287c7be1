import { type Color, featureFilter, latest, normalizePropertyExpression } from '@maplibre/maplibre-gl-style-spec'
import type { Feature } from 'geojson'
import type { LayerSpecification } from 'maplibre-gl'
import type { Fill } from '../marks.ts'

/** A layer of the map's theme, its rules ready to be asked at one zoom. */
export interface LayerPaint {
  readonly layer: LayerSpecification
  draws(feature: Asked): boolean
  number(property: string, feature: Asked | null): number
  colour(property: string, feature: Asked | null): Fill
  words(property: string, feature: Asked | null): string
  numbers(property: string, feature: Asked | null): readonly number[]
  /** False where the layer says nothing of it, and the specification has no default either. */
  has(property: string): boolean
}

/** A feature as rules ask for it: its kind of geometry, and its properties, among which on paper its state is. */
export interface Asked {
  readonly type: 'Point' | 'LineString' | 'Polygon'
  readonly properties: Readonly<Record<string, unknown>>
}

export const askedOf = (feature: Feature, type: Asked['type']): Asked => ({
  type,
  properties: (feature.properties ?? {}) as Record<string, unknown>,
})

type Rules = Readonly<Record<string, Parameters<typeof normalizePropertyExpression>[2]>>

/** Null where the layer is not shown at this zoom, or is no layer of features. */
export function layerPaint(layer: LayerSpecification, zoom: number): LayerPaint | null {
  const { layout = {}, paint = {} } = layer as { layout?: Record<string, unknown>; paint?: Record<string, unknown> }
  if (layout.visibility === 'none') return null
  if (layer.minzoom !== undefined && zoom < layer.minzoom) return null
  if (layer.maxzoom !== undefined && zoom >= layer.maxzoom) return null
  const specs = latest as unknown as Readonly<Record<string, Rules | undefined>>
  const rules = { ...specs[`layout_${layer.type}`], ...specs[`paint_${layer.type}`] }
  const given: Readonly<Record<string, unknown>> = { ...layout, ...paint }
  const made = new Map<string, ReturnType<typeof normalizePropertyExpression>>()
  const value = (property: string, feature: Asked | null): unknown => {
    const spec = rules[property]
    if (!spec) throw new Error(`a layer of kind ${layer.type} has no ${property}`)
    let rule = made.get(property)
    if (!rule) {
      rule = normalizePropertyExpression(
        (given[property] ?? spec.default) as Parameters<typeof normalizePropertyExpression>[0],
        property,
        spec,
      )
      made.set(property, rule)
    }
    return rule.evaluate({ zoom }, feature as Parameters<typeof rule.evaluate>[1], { ...feature?.properties })
  }
  const filter = 'filter' in layer && layer.filter ? featureFilter(layer.filter, 'filter') : null
  return {
    layer,
    has: (property) => given[property] !== undefined,
    draws: (feature) => !filter || filter.filter({ zoom }, feature as Parameters<typeof filter.filter>[1]),
    number: (property, feature) => Number(value(property, feature)),
    colour: (property, feature) => hexOf(value(property, feature) as Color),
    words: (property, feature) => String(value(property, feature) ?? ''),
    numbers: (property, feature) => (value(property, feature) as readonly number[] | null) ?? [],
  }
}

/** The specification keeps colours with their opacity multiplied in. */
function hexOf({ r, g, b, a }: Color): Fill {
  const two = (share: number) =>
    Math.round(255 * Math.min(1, Math.max(0, a === 0 ? 0 : share / a)))
      .toString(16)
      .padStart(2, '0')
  return { colour: `#${two(r)}${two(g)}${two(b)}`, opacity: a }
}
