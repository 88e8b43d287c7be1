import type { LayerSpecification } from 'maplibre-gl'

/** How often such a name may move on along its bed to find room: beside narrow beds at a small scale names stand by turns. */
const SLIDES = 4

/** A map's layers with the names of some beds, told by their ids: theirs alone, and at any scale. */
export const namingBeds = (layers: readonly LayerSpecification[], beds: readonly string[]): LayerSpecification[] =>
  layers.map((layer) =>
    layer.type === 'symbol' && layer.id === 'bed-name'
      ? { ...layer, minzoom: 0, filter: ['in', ['get', 'id'], ['literal', [...beds]]], metadata: { slides: SLIDES } }
      : layer,
  )

/** How often the names of a layer may move on along themselves. */
export const slidesOf = ({ metadata }: LayerSpecification): number =>
  (metadata as { readonly slides?: number } | undefined)?.slides ?? 0
