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

/** A thing in a place that it is to have. */
export interface Placed extends Thing {
  readonly geometry: Geometry
}

/** The features shown, by layer and record, each with a number of its own that is never given again. */
export interface LayerStore {
  /** Everything anew: what each source is to hold. */
  replaceAll(layers: Layers): Record<StoreSource, FeatureCollection>
  /** A step's changes: what is to change in which source. What looks as it did is taken in, but changes nothing. */
  patch(changes: LayerChanges): Partial<Record<StoreSource, GeoJSONSourceDiff>>
  /** Keeps things out of the sources while they are edited, and lets others back in. */
  hide(things: readonly Thing[]): Partial<Record<StoreSource, GeoJSONSourceDiff>>
  /** Lets all that was hidden back in, and puts things in their new places, hidden before or not. */
  letBack(placed: readonly Placed[]): Partial<Record<StoreSource, GeoJSONSourceDiff>>
  features<L extends LayerName>(layer: L): readonly LayerFeature<L>[]
  featuresOf(thing: Thing): readonly LayerFeature[]
}

/** A store with nothing in it. Longitudes are rewritten within 180° of the first feature that comes in, so that a farm on the 180th meridian is in one piece. */
export function makeLayerStore(): LayerStore {
  const layers = new Map<LayerName, Map<string, Kept[]>>(LAYER_NAMES.map((name) => [name, new Map()]))
  let next = 1
  let about: number | null = null
  let hidden: ReadonlyMap<string, Thing> = new Map()

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
  const keyOf = ({ kind, id }: Thing) => `${kind} ${id}`
  const isHidden = (layer: LayerName, id: string) => hidden.size > 0 && hidden.has(keyOf({ kind: KIND_OF[layer], id }))
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

  const layersOf = ({ kind }: Thing) => LAYER_NAMES.filter((layer) => KIND_OF[layer] === kind)
  /** The same thing in its new place, where it is one feature of that type of geometry; its other features are as they were. */
  const moved = (placed: Placed, put: (layer: LayerName, was: readonly Kept[], now: readonly Kept[]) => void) => {
    for (const layer of layersOf(placed)) {
      const was = kept(layer).get(placed.id)
      const [one] = was ?? []
      if (was?.length !== 1 || one?.feature.geometry.type !== placed.geometry.type) continue
      const now = [keep(layer, { ...one.feature, geometry: placed.geometry } as LayerFeature)]
      kept(layer).set(placed.id, now)
      put(layer, was, now)
    }
  }
  const hide = (things: readonly Thing[], { out, change } = diffs()) => {
    const was = hidden
    hidden = new Map(things.map((thing) => [keyOf(thing), thing]))
    for (const [key, thing] of was)
      if (!hidden.has(key)) for (const layer of layersOf(thing)) change(layer, [], kept(layer).get(thing.id) ?? [])
    for (const [key, thing] of hidden)
      if (!was.has(key)) for (const layer of layersOf(thing)) change(layer, kept(layer).get(thing.id) ?? [], [])
    return out
  }

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
          const was = all.get(id) ?? []
          const now = come.get(id)
          if (now && looksAs(was, now)) {
            all.set(id, withNumbersOf(was, now))
            continue
          }
          if (!isHidden(layer, id)) change(layer, was, now ?? [])
          if (now) all.set(id, now)
          else all.delete(id)
        }
      }
      return out
    },
    hide: (things) => hide(things),
    letBack(placed) {
      const both = diffs()
      for (const one of placed)
        moved(one, (layer, was, now) => {
          if (!isHidden(layer, one.id)) both.change(layer, was, now)
        })
      return hide([], both)
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

/** Told when they are asked for, and not drawn. */
const NOT_DRAWN = new Set(['area_m2', 'length_m'])
/** Places agree to as many degrees as the database tells them with. */
const SAME_DEG = 1.1e-9

/** Whether features are drawn alike: in the same places, with the same of what their looks are made of. */
function looksAs(was: readonly Kept[], now: readonly Kept[]): boolean {
  return was.length === now.length && was.every((one, n) => sameLook(one.feature, now[n]!.feature))
}

function sameLook(was: LayerFeature, now: LayerFeature): boolean {
  const [before, after] = [new Map(Object.entries(was.properties)), new Map(Object.entries(now.properties))]
  for (const key of new Set([...before.keys(), ...after.keys()]))
    if (!NOT_DRAWN.has(key) && before.get(key) !== after.get(key)) return false
  const [places, others] = [[...positionsOf(was.geometry)], [...positionsOf(now.geometry)]]
  return (
    was.geometry.type === now.geometry.type &&
    places.length === others.length &&
    places.every(([lon, lat], n) => {
      const [x, y] = others[n]!
      return Math.abs(lon! - x!) < SAME_DEG && Math.abs(lat! - y!) < SAME_DEG
    })
  )
}

/** What is new under the numbers by which the map has it already. */
const withNumbersOf = (was: readonly Kept[], now: readonly Kept[]): Kept[] =>
  now.map((one, n) => ({ name: was[n]!.name, feature: { ...one.feature, id: was[n]!.feature.id } }))
