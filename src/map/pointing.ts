import type { Position } from 'geojson'
import type { Map as MapLibre, MapMouseEvent, PointLike } from 'maplibre-gl'
import type { LayerName } from '../../geo/layers/layer.ts'
import { positionsOf } from '../../geo/plane/geometry.ts'
import type { FarmMapEvents, Hover, Thing } from './farmMap.ts'
import { type Candidate, chooseHit, distanceTo, type Pixel, REACH_PX } from './hits.ts'
import { KIND_OF, type LayerStore } from './layerStore.ts'

interface Told {
  pick(told: FarmMapEvents['pick']): void
  hover(told: Hover | null): void
  /** True while taps belong to drawing. */
  held(): boolean
  /** Things that may not be drawn yet, and can be tapped all the same. */
  fresh(): readonly Thing[]
}

/** Layers whose things a box takes in. */
const BOXED = ['fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations'] as const

const isLayerName = (name: string): name is LayerName => name in KIND_OF

/** What lies under a place on the screen, or in a box on it. */
export interface Pointer {
  thingAt(at: Pixel, touch: boolean): Thing | null
  thingsIn(from: Pixel, to: Pixel): readonly Thing[]
}

/** Turns taps, Enter and the moving pointer into things of the farm. */
export function listenToPointer(map: MapLibre, store: LayerStore, told: Told): Pointer {
  const project = (p: readonly number[]): Pixel => {
    const { x, y } = map.project([p[0]!, p[1]!])
    return [x, y]
  }

  const thingAt = ([x, y]: Pixel, touch: boolean): Thing | null => {
    const reach = REACH_PX[touch ? 'touch' : 'mouse'].open
    const box: [PointLike, PointLike] = [
      [x - reach, y - reach],
      [x + reach, y + reach],
    ]
    const things = new Map<string, Thing>()
    for (const { source, properties } of map.queryRenderedFeatures(box))
      if (isLayerName(source) && source !== 'canopies') {
        const thing: Thing = { kind: KIND_OF[source], id: String(properties.id) }
        things.set(`${thing.kind} ${thing.id}`, thing)
      }
    for (const thing of told.fresh()) things.set(`${thing.kind} ${thing.id}`, thing)
    const candidates: Candidate[] = []
    for (const thing of things.values())
      for (const feature of store.featuresOf(thing))
        if (!('ring' in feature.properties))
          candidates.push({ thing, ...distanceTo(feature.geometry, [x, y], project) })
    return chooseHit(candidates, touch)
  }

  const nameOf = (thing: Thing): string | null => {
    const properties: Readonly<Record<string, unknown>> = { ...store.featuresOf(thing)[0]?.properties }
    for (const key of ['name', 'variety_name', 'system_name', 'species', 'kind'])
      if (typeof properties[key] === 'string') return properties[key]
    return null
  }

  const pickAt = (pixel: Pixel, touch: boolean, more: boolean) => {
    const { lng, lat } = map.unproject([pixel[0], pixel[1]])
    const zone = map.queryRenderedFeatures([pixel[0], pixel[1]], { layers: ['zone-ground'] })[0]
    told.pick({
      thing: thingAt(pixel, touch),
      zone: zone ? String(zone.properties.id) : null,
      at: [lng, lat],
      more,
    })
  }

  map.on('click', ({ point, originalEvent }: MapMouseEvent) => {
    if (told.held()) return
    const touch = 'pointerType' in originalEvent && originalEvent.pointerType !== 'mouse'
    pickAt([point.x, point.y], touch, originalEvent.shiftKey || originalEvent.ctrlKey || originalEvent.metaKey)
  })
  map.getCanvas().addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' || told.held()) return
    event.preventDefault()
    pickAt([map.getCanvas().clientWidth / 2, map.getCanvas().clientHeight / 2], false, event.shiftKey)
  })

  let waiting: MapMouseEvent | null = null
  map.on('mousemove', (event) => {
    if (told.held()) return
    if (!waiting)
      requestAnimationFrame(() => {
        const now = waiting
        waiting = null
        if (!now || told.held()) return
        const pixel: Pixel = [now.point.x, now.point.y]
        const thing = thingAt(pixel, false)
        const value: unknown = map.queryRenderedFeatures([pixel[0], pixel[1]], { layers: ['surface'] })[0]?.state.value
        map.getCanvas().style.cursor = thing ? 'pointer' : ''
        told.hover({
          thing,
          name: thing && nameOf(thing),
          value: typeof value === 'number' ? value : null,
          at: [now.lngLat.lng, now.lngLat.lat],
          pixel,
        })
      })
    waiting = event
  })
  map.on('mouseout', () => {
    waiting = null
    if (!told.held()) told.hover(null)
  })

  return {
    thingAt,
    thingsIn([x, y], [u, v]) {
      const corners = [
        [x, y],
        [u, y],
        [u, v],
        [x, v],
      ].map(([px, py]) => map.unproject([px!, py!]))
      const north = map.getBearing() === 0
      const within = (p: Position): boolean => {
        if (north) return west <= p[0]! && p[0]! <= east && south <= p[1]! && p[1]! <= top
        const [px, py] = project(p)
        return px >= Math.min(x, u) && px <= Math.max(x, u) && py >= Math.min(y, v) && py <= Math.max(y, v)
      }
      const [lons, lats] = [corners.map(({ lng }) => lng), corners.map(({ lat }) => lat)]
      const [west, east, south, top] = [Math.min(...lons), Math.max(...lons), Math.min(...lats), Math.max(...lats)]
      return BOXED.flatMap((layer) =>
        store
          .features(layer)
          .filter(({ geometry }) => [...positionsOf(geometry)].every(within))
          .map(({ properties }): Thing => ({ kind: KIND_OF[layer], id: properties.id })),
      )
    },
  }
}
