import type { LayerSpecification, Map as MapLibre } from 'maplibre-gl'

type Loose = Readonly<Record<string, unknown>>
const same = (a: unknown, b: unknown) => a === b || JSON.stringify(a) === JSON.stringify(b)

/** Changes only what differs between two lists of the same layers in the same order, so that what is drawn stays drawn. */
export function repaint(
  map: MapLibre,
  before: readonly LayerSpecification[],
  after: readonly LayerSpecification[],
): void {
  after.forEach((layer, i) => {
    const old = before[i]
    if (old?.id !== layer.id) throw new Error(`layer ${layer.id} stands where ${old?.id} was`)
    const [paint, oldPaint] = [(layer.paint ?? {}) as Loose, (old.paint ?? {}) as Loose]
    for (const key of new Set([...Object.keys(paint), ...Object.keys(oldPaint)]))
      if (!same(paint[key], oldPaint[key])) map.setPaintProperty(layer.id, key as never, paint[key] as never)
    const [layout, oldLayout] = [(layer.layout ?? {}) as Loose, (old.layout ?? {}) as Loose]
    for (const key of new Set([...Object.keys(layout), ...Object.keys(oldLayout)]))
      if (!same(layout[key], oldLayout[key])) map.setLayoutProperty(layer.id, key as never, layout[key] as never)
    if ('source' in layer && 'source' in old && !same(layer.filter, old.filter))
      map.setFilter(layer.id, layer.filter as never)
  })
}
