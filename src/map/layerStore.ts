import type { Feature, FeatureCollection, Geometry } from 'geojson'
import type { GeoJSONSourceDiff } from 'maplibre-gl'
import type { LayerFeature, LayerName } from '../../geo/layers/layer.ts'
import { mapPositions, positionsOf } from '../../geo/plane/geometry.ts'
import { lonAbout } from '../../geo/plane/lonLat.ts'
import type { LayerChanges, Layers, Thing, ThingKind } from './farmMap.ts'
import { type NamePlace, stripHead, upperEdge } from './nameEdge.ts'

/** Which kind of record a layer's features belong to. */
export const KIND_OF: Readonly<Record<LayerName, ThingKind>> = {
  fields: 'fields',
  beds: 'beds',
  rows: 'rows',
  trees: 'trees',
  canopies: 'trees',
  supports: 'supports',
  structures: 'structures',
  observations: 'observations',
  stretches: 'plantings',
}
const LAYER_NAMES = Object.keys(KIND_OF) as LayerName[]

type NamesSource = 'field-names' | 'bed-names'
export type StoreSource = LayerName | NamesSource
const NAMES: Partial<Record<LayerName, readonly [NamesSource, (geometry: Geometry) => NamePlace | null]>> = {
  fields: ['field-names', upperEdge],
  beds: ['bed-names', stripHead],
}

/** A feature as the map has it: numbered by the page itself, with its name's feature where it has one. */
interface Kept {
  readonly feature: LayerFeature & { readonly id: number }
  readonly name: Feature | null
}

/** The features shown, by layer and record, each with a number of its own that is never given again. */
export interface LayerStore {
  /** Everything anew: what each source is to hold. */
  replaceAll(layers: Layers): Record<StoreSource, FeatureCollection>
  /** A step's changes: what is to change in which source. */
  patch(changes: LayerChanges): Partial<Record<StoreSource, GeoJSONSourceDiff>>
  /** Keeps a thing out of the sources while it is edited, or lets it back in. */
  hide(thing: Thing | null): Partial<Record<StoreSource, GeoJSONSourceDiff>>
  features<L extends LayerName>(layer: L): readonly LayerFeature<L>[]
  featuresOf(thing: Thing): readonly LayerFeature[]
}

/** A store with nothing in it. Longitudes are rewritten within 180° of the first feature that comes in, so that a farm on the 180th meridian is in one piece. */
export function makeLayerStore(): LayerStore {
  const layers = new Map<LayerName, Map<string, Kept[]>>(LAYER_NAMES.map((name) => [name, new Map()]))
  let next = 1
  let about: number | null = null
  let hidden: Thing | null = null

  const inOnePiece = (geometry: Geometry): Geometry => {
    for (const [lon] of positionsOf(geometry)) {
      about ??= lon!
      if (Math.abs(lon! - about) > 180) return mapPositions(geometry, ([x, lat]) => [lonAbout(about ?? 0, x), lat])
    }
    return geometry
  }
  const keep = (layer: LayerName, given: LayerFeature): Kept => {
    const id = next++
    const feature = { ...given, id, geometry: inOnePiece(given.geometry) }
    const names = NAMES[layer]
    const place = names?.[1](feature.geometry)
    if (!place || !('name' in given.properties)) return { feature, name: null }
    const name: Feature = {
      type: 'Feature',
      id,
      properties: { id: given.properties.id, name: given.properties.name, turn: place.turnDeg },
      geometry: { type: 'Point', coordinates: place.at },
    }
    return { feature, name }
  }
  const isHidden = (layer: LayerName, id: string) => hidden?.kind === KIND_OF[layer] && hidden.id === id
  const diffs = () => {
    const out: Partial<Record<StoreSource, Required<Pick<GeoJSONSourceDiff, 'add' | 'remove'>>>> = {}
    const of = (source: StoreSource) => (out[source] ??= { remove: [], add: [] })
    return {
      out,
      change(layer: LayerName, gone: readonly Kept[], come: readonly Kept[]) {
        const names = NAMES[layer]?.[0]
        for (const { feature, name } of gone) {
          of(layer).remove.push(feature.id)
          if (names && name) of(names).remove.push(feature.id)
        }
        for (const { feature, name } of come) {
          of(layer).add.push(feature)
          if (names && name) of(names).add.push(name)
        }
      },
    }
  }
  const kept = (layer: LayerName) => layers.get(layer)!

  return {
    replaceAll(given) {
      const out = {} as Record<StoreSource, FeatureCollection>
      const collection = (): FeatureCollection => ({ type: 'FeatureCollection', features: [] })
      about = null
      for (const layer of LAYER_NAMES) {
        const all = kept(layer)
        all.clear()
        out[layer] = collection()
        const names = NAMES[layer]?.[0]
        if (names) out[names] = collection()
        for (const feature of given[layer].features) {
          const one = keep(layer, feature)
          const id = feature.properties.id
          const pieces = all.get(id)
          if (pieces) pieces.push(one)
          else all.set(id, [one])
          if (isHidden(layer, id)) continue
          out[layer].features.push(one.feature)
          if (names && one.name) out[names].features.push(one.name)
        }
      }
      return out
    },
    patch(changes) {
      const { out, change } = diffs()
      for (const layer of LAYER_NAMES) {
        const given = changes[layer]
        if (!given) continue
        const all = kept(layer)
        const come = new Map<string, Kept[]>()
        for (const feature of given.put as readonly LayerFeature[]) {
          const id = feature.properties.id
          const pieces = come.get(id) ?? []
          pieces.push(keep(layer, feature))
          come.set(id, pieces)
        }
        for (const id of new Set([...given.gone, ...come.keys()])) {
          const now = come.get(id)
          if (!isHidden(layer, id)) change(layer, all.get(id) ?? [], now ?? [])
          if (now) all.set(id, now)
          else all.delete(id)
        }
      }
      return out
    },
    hide(thing) {
      const { out, change } = diffs()
      const was = hidden
      hidden = thing
      for (const layer of LAYER_NAMES) {
        const all = kept(layer)
        if (was?.kind === KIND_OF[layer]) change(layer, [], all.get(was.id) ?? [])
        if (thing?.kind === KIND_OF[layer]) change(layer, all.get(thing.id) ?? [], [])
      }
      return out
    },
    features<L extends LayerName>(layer: L) {
      const out: LayerFeature<L>[] = []
      for (const pieces of kept(layer).values()) for (const { feature } of pieces) out.push(feature as LayerFeature<L>)
      return out
    },
    featuresOf(thing) {
      const out: LayerFeature[] = []
      for (const layer of LAYER_NAMES)
        if (KIND_OF[layer] === thing.kind) for (const { feature } of kept(layer).get(thing.id) ?? []) out.push(feature)
      return out
    },
  }
}
