import type { LayerName } from '../../geo/layers/layer.ts'
import type { LayerChanges, Thing } from './farmMap.ts'
import { KIND_OF } from './layerStore.ts'

/** What steps have just put on the map and its tiles may not know of yet. */
export interface FreshThings {
  /** Notes what a step puts there; what it gives takes that back, once tiles are cut. */
  note(changes: LayerChanges): () => void
  /** Those of layers that are shown. */
  shown(isShown: (layer: LayerName) => boolean): readonly Thing[]
}

export function makeFreshThings(): FreshThings {
  const fresh = new Set<{ readonly thing: Thing; readonly layer: LayerName }>()
  return {
    note(changes) {
      const now = (Object.keys(changes) as LayerName[])
        .filter((layer) => layer !== 'canopies')
        .flatMap((layer) =>
          changes[layer]!.put.map(({ properties }) => ({ thing: { kind: KIND_OF[layer], id: properties.id }, layer })),
        )
      for (const one of now) fresh.add(one)
      return () => {
        for (const one of now) fresh.delete(one)
      }
    },
    shown: (isShown) => [...fresh].filter(({ layer }) => isShown(layer)).map(({ thing }) => thing),
  }
}
