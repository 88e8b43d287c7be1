import fc from 'fast-check'
import type { Feature } from 'geojson'
import type { GeoJSONSourceDiff } from 'maplibre-gl'
import { describe, expect, it } from 'vitest'
import type { LayerFeature, LayerName } from '../../../geo/layers/layer.ts'
import type { Layers, Thing } from '../../../src/map/farmMap.ts'
import { KIND_OF, makeLayerStore, type StoreSource } from '../../../src/map/layerStore.ts'

const names = Object.keys(KIND_OF) as LayerName[]
const noLayers = (): { [L in LayerName]: { type: 'FeatureCollection'; features: LayerFeature<L>[] } } =>
  Object.fromEntries(names.map((name) => [name, { type: 'FeatureCollection', features: [] }])) as never
const bed = (id: string, lon: number, lat = 52, width = 1e-5): LayerFeature<'beds'> => ({
  type: 'Feature',
  properties: { id, name: id.toUpperCase(), field: 'f', area_m2: 1, standing: true, stock: 0, dressed: null },
  geometry: {
    type: 'Polygon',
    coordinates: [
      [
        [lon, lat],
        [lon + 1e-4, lat],
        [lon + 1e-4, lat + width],
        [lon, lat + width],
        [lon, lat],
      ],
    ],
  },
})
const piece = (id: string, n: number, held: boolean): LayerFeature<'stretches'> => ({
  type: 'Feature',
  properties: {
    id,
    n,
    crop: 'c',
    crop_name: 'bean',
    variety_name: 'v',
    family: 'f',
    set_out: '2026-05-01',
    climbs: true,
    held,
    length_m: 1,
  },
  geometry: {
    type: 'LineString',
    coordinates: [
      [0, n],
      [1, n],
    ],
  },
})

/** Sources kept as MapLibre's documentation says that it keeps them: removed, then added, by id. */
function makeSources() {
  const sources = new Map<string, Map<number, Feature>>()
  const given = new Set<number>()
  const of = (name: string) => {
    const source = sources.get(name) ?? new Map<number, Feature>()
    sources.set(name, source)
    return source
  }
  return {
    set(all: Record<StoreSource, { features: Feature[] }>) {
      for (const [name, { features }] of Object.entries(all)) {
        sources.set(name, new Map())
        for (const feature of features) of(name).set(feature.id as number, feature)
      }
    },
    apply(diffs: Partial<Record<StoreSource, GeoJSONSourceDiff>>) {
      for (const [name, diff] of Object.entries(diffs)) {
        for (const id of diff.remove ?? []) expect(of(name).delete(id as number)).toBe(true)
        for (const feature of diff.add ?? []) {
          if (name === 'beds') {
            expect(given.has(feature.id as number)).toBe(false)
            given.add(feature.id as number)
          }
          of(name).set(feature.id as number, feature)
        }
      }
    },
    shows: (name: string) => [...of(name).values()].map((f) => JSON.stringify([f.properties, f.geometry])).sort(),
  }
}
const told = (features: readonly Feature[]) => features.map((f) => JSON.stringify([f.properties, f.geometry])).sort()

describe('the layers kept', () => {
  it('come through any run of changes as if set anew', () => {
    const id = fc.constantFrom('a', 'b', 'c', 'd')
    const change = fc.oneof(
      fc.record({ do: fc.constant('put' as const), id, lon: fc.integer({ min: -20, max: 20 }) }),
      fc.record({ do: fc.constant('drop' as const), id }),
      fc.record({ do: fc.constant('pieces' as const), id, many: fc.integer({ min: 0, max: 3 }) }),
    )
    fc.assert(
      fc.property(fc.array(change, { maxLength: 25 }), (changes) => {
        const store = makeLayerStore()
        const sources = makeSources()
        sources.set(store.replaceAll({ ...noLayers(), beds: { type: 'FeatureCollection', features: [bed('a', 1)] } }))
        const beds = new Map([['a', bed('a', 1)]])
        const pieces = new Map<string, LayerFeature<'stretches'>[]>()
        for (const one of changes) {
          if (one.do === 'put') {
            beds.set(one.id, bed(one.id, one.lon))
            sources.apply(store.patch({ beds: { put: [bed(one.id, one.lon)], gone: [] } }))
          } else if (one.do === 'drop') {
            beds.delete(one.id)
            sources.apply(store.patch({ beds: { put: [], gone: [one.id] } }))
          } else {
            const put = Array.from({ length: one.many }, (_, n) => piece(one.id, n, n % 2 === 0))
            if (put.length > 0) pieces.set(one.id, put)
            else pieces.delete(one.id)
            sources.apply(store.patch({ stretches: { put, gone: put.length > 0 ? [] : [one.id] } }))
          }
        }
        const wanted: Layers = {
          ...noLayers(),
          beds: { type: 'FeatureCollection', features: [...beds.values()] },
          stretches: { type: 'FeatureCollection', features: [...pieces.values()].flat() },
        }
        const anew = makeLayerStore().replaceAll(wanted)
        for (const name of ['beds', 'bed-names', 'stretches'] as const)
          expect(sources.shows(name)).toEqual(told(anew[name].features))
        expect(told(store.features('beds'))).toEqual(told(wanted.beds.features))
      }),
      { seed: 7, numRuns: 200 },
    )
  })
  it('leave out what is being edited, also through a change to it, and let it back in as it is then', () => {
    const store = makeLayerStore()
    const sources = makeSources()
    sources.set(
      store.replaceAll({ ...noLayers(), beds: { type: 'FeatureCollection', features: [bed('a', 1), bed('b', 2)] } }),
    )
    const a: Thing = { kind: 'beds', id: 'a' }
    sources.apply(store.hide([a]))
    expect(sources.shows('beds')).toEqual(told([bed('b', 2)]))
    expect(sources.shows('bed-names')).toHaveLength(1)
    sources.apply(store.patch({ beds: { put: [bed('a', 3)], gone: [] } }))
    expect(sources.shows('beds')).toEqual(told([bed('b', 2)]))
    sources.apply(store.hide([]))
    expect(sources.shows('beds')).toEqual(told([bed('a', 3), bed('b', 2)]))
  })
  it('are in one piece on the 180th meridian, whichever side a shape is written on', () => {
    const store = makeLayerStore()
    const across: LayerFeature<'beds'> = {
      ...bed('a', 0),
      geometry: {
        type: 'Polygon',
        coordinates: [
          [
            [179.9999, 1],
            [-179.9999, 1],
            [-179.9999, 1.0001],
            [179.9999, 1.0001],
            [179.9999, 1],
          ],
        ],
      },
    }
    const out = store.replaceAll({
      ...noLayers(),
      beds: { type: 'FeatureCollection', features: [across, bed('b', -179.9999, 1)] },
    })
    const lons = out.beds.features.flatMap((f) => (f.geometry.type === 'Polygon' ? f.geometry.coordinates[0]! : []))
    expect(Math.min(...lons.map((p) => p[0]!))).toBeCloseTo(179.9999, 9)
    expect(Math.max(...lons.map((p) => p[0]!))).toBeCloseTo(180.0002, 9)
  })
})
