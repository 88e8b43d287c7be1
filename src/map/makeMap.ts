import './map.css'
import type { Feature, FeatureCollection } from 'geojson'
import { type GeoJSONSource, Map as MapLibre, setWorkerUrl } from 'maplibre-gl'
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?url'
import type { LayerName } from '../../geo/layers/layer.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { boundsOf } from './boundsOf.ts'
import { broughtFeatures } from './broughtFeatures.ts'
import type {
  Bounds,
  FarmMap,
  FarmMapEvents,
  FarmMapOptions,
  MapPhoto,
  MapView,
  Padding,
  Ramp,
  Thing,
} from './farmMap.ts'
import { makeFreshThings } from './freshThings.ts'
import { hatchTile } from './hatch.ts'
import { makeLayerStore, type StoreSource } from './layerStore.ts'
import { metresPerPixel } from './metresPerPixel.ts'
import { painted } from './painted.ts'
import { makePhotoLayers } from './photoLayers.ts'
import { listenToPointer } from './pointing.ts'
import { repaint } from './repaint.ts'
import { makeSurfaceSource } from './surfaceSource.ts'
import { FONT_FACES } from './theme/fonts.ts'
import { ON_PAPER, PALETTES } from './theme/palette.ts'
import { HATCH } from './theme/structureLayers.ts'
import { layersFor, SOURCES, type SourceName, styleFor } from './theme/styleFor.ts'
import type { MapTheme } from './theme/theme.ts'

setWorkerUrl(workerUrl)

/** The first layer above the photos. */
const ABOVE_PHOTOS = 'field-ground'
const NO_FEATURES: FeatureCollection = { type: 'FeatureCollection', features: [] }
const EDGE: Padding = { top: 40, right: 40, bottom: 40, left: 40 }

/** Makes the map in an element with a size of its own. Everything it draws comes from the page: it asks the network for nothing but the bundled fonts. */
export function makeMap(container: HTMLElement, options: FarmMapOptions): FarmMap {
  let theme: MapTheme = {
    sheet: options.sheet,
    palette: PALETTES[options.look],
    overPhoto: false,
    today: options.today,
  }
  let ramp: Ramp = { of: 'par' }
  let layers = layersFor(theme, ramp)
  let selected: readonly Thing[] = []
  let hiddenNow: readonly Thing[] = []
  let held = false
  let shownPhotos: readonly MapPhoto[] = []
  let changes = 0
  let isPlaced = options.view !== undefined
  const store = makeLayerStore()

  const map = new MapLibre({
    container,
    style: styleFor(theme, ramp, FONT_FACES),
    canvasContextAttributes: { preserveDrawingBuffer: true },
    attributionControl: false,
    maxPitch: 0,
    maxZoom: 24,
    dragRotate: false,
    boxZoom: false,
    pitchWithRotate: false,
    fadeDuration: 0,
    reduceMotion: options.reducedMotion,
    locale: { 'Map.Title': options.label },
    ...(options.view && {
      center: [...options.view.centre] as [number, number],
      zoom: options.view.zoom,
      bearing: options.view.bearingDeg,
    }),
  })
  map.touchZoomRotate.disableRotation()
  map.keyboard.disableRotation()
  map.addImage(HATCH, hatchTile(theme.palette.soft), { pixelRatio: 2 })

  const hearers: { [E in keyof FarmMapEvents]: Set<(told: FarmMapEvents[E]) => void> } = {
    pick: new Set(),
    hover: new Set(),
    view: new Set(),
    fault: new Set(),
  }
  const tell = <E extends keyof FarmMapEvents>(event: E, told: FarmMapEvents[E]) => {
    for (const hear of hearers[event]) hear(told)
  }

  let destroyed = false
  const styled = new Promise<void>((resolve) => map.once('style.load', () => resolve()))
  const ready = new Promise<void>((resolve) => map.once('load', () => resolve()))
  /** Does it once the style stands, in the order asked. */
  const then = <T>(run: () => T | Promise<T>): Promise<T | undefined> =>
    styled.then(() => (destroyed ? undefined : run()))
  const source = (name: SourceName): GeoJSONSource => {
    const found = map.getSource<GeoJSONSource>(name)
    if (!found) throw new Error(`the map has no source ${name}`)
    return found
  }
  const ground = makeSurfaceSource(map)
  const photos = makePhotoLayers(map, ABOVE_PHOTOS, (detail) => tell('fault', { detail }))

  const restyle = (next: Partial<MapTheme>, nextRamp = ramp) => {
    const was = theme.palette
    theme = { ...theme, ...next }
    ramp = nextRamp
    void then(() => {
      const after = layersFor(theme, ramp)
      if (theme.palette !== was) map.updateImage(HATCH, hatchTile(theme.palette.soft))
      repaint(map, layers, after)
      layers = after
    })
  }
  const showSelected = () => {
    const shown = selected.filter(({ kind, id }) => !hiddenNow.some((one) => one.kind === kind && one.id === id))
    const features = shown.flatMap((thing) => store.featuresOf(thing).filter((f) => !('ring' in f.properties)))
    return then(() => source('selected').setData({ type: 'FeatureCollection', features }))
  }
  /** The sources take what changes in the order in which the store did. */
  let queue: Promise<unknown> = styled
  const inTurn = (run: () => Promise<unknown>, after?: Promise<unknown>): Promise<void> => {
    const done = Promise.allSettled([queue, after]).then(() => then(run))
    queue = done
    return done.then(() => undefined)
  }
  const apply = (diffs: ReturnType<typeof store.patch>, after?: Promise<unknown>): Promise<void> =>
    inTurn(
      () => Promise.all(Object.entries(diffs).map(([name, diff]) => source(name as StoreSource).updateData(diff))),
      after,
    )

  const view = (): MapView => {
    const { lng, lat } = map.getCenter()
    const zoom = map.getZoom()
    return { centre: [lng, lat], zoom, bearingDeg: map.getBearing(), metresPerPixel: metresPerPixel(lat, zoom) }
  }
  map.on('move', () => tell('view', view()))
  map.on('resize', () => tell('view', view()))
  map.on('error', ({ error }) => tell('fault', { detail: error.message }))
  const fresh = makeFreshThings()
  const isShown = (name: LayerName) =>
    layers.some((layer) => 'source' in layer && layer.source === name && layer.layout?.visibility !== 'none')
  const pointer = listenToPointer(map, store, {
    pick: (told) => tell('pick', told),
    hover: (told) => tell('hover', told),
    held: () => held,
    fresh: () => fresh.shown(isShown),
  })

  const boundsFor = (what: Bounds | Thing | null): Bounds | null => {
    if (what && 'southWest' in what) return what
    if (what) return boundsOf(store.featuresOf(what).map((f) => f.geometry))
    return boundsOf(
      (['fields', 'beds', 'rows', 'canopies', 'trees', 'supports', 'structures'] as const).flatMap((layer) =>
        store.features(layer).map((f) => f.geometry),
      ),
    )
  }

  return {
    ready,
    async setLayers(given) {
      const collections = store.replaceAll(given)
      changes++
      const selecting = showSelected()
      await inTurn(() =>
        Promise.all(Object.entries(collections).map(([name, data]) => source(name as StoreSource).setData(data))),
      )
      await selecting
    },
    async patch(given) {
      const diffs = store.patch(given)
      changes++
      // Cutting tiles takes long: what else the step changes in the page comes first.
      const applied = apply(diffs, painted())
      const drawn = fresh.note(given)
      void applied.then(() => map.once('idle', drawn))
      if (selected.length > 0 && Object.keys(diffs).length > 0) await showSelected()
      await applied
    },
    setSheet: (sheet) => restyle({ sheet }),
    setLook: (look) => restyle({ palette: PALETTES[look] }),
    async setSurface(surface) {
      if (surface) restyle({}, surface.ramp)
      await then(() => ground.set(surface))
    },
    async setZones(zones) {
      await then(() => source('zones').setData(zones ?? NO_FEATURES))
    },
    async setPosts(posts) {
      await then(() => source('posts').setData(posts ?? NO_FEATURES))
    },
    async setSiting(siting) {
      await then(() => source('siting').setData(siting ?? NO_FEATURES))
    },
    async setProposed(proposed) {
      await then(() => source('proposed').setData(proposed ?? NO_FEATURES))
    },
    async setBrought(shapes) {
      const features = shapes ? broughtFeatures(shapes) : []
      await then(() => source('brought').setData({ type: 'FeatureCollection', features }))
    },
    async setPhotos(given) {
      shownPhotos = given.filter((photo) => photo.visible && photo.opacity > 0)
      restyle({ overPhoto: shownPhotos.length > 0 })
      await then(() => photos.set(given))
    },
    setSwipe: (swipe) => void then(() => photos.swipe(swipe)),
    setSelected(things) {
      if (things.length + selected.length === 0) return
      selected = things
      void showSelected()
    },
    setPosition(position) {
      const features: Feature[] = position ? [positionFeature(position.at, position.accuracyM)] : []
      void then(() => source('position').setData({ type: 'FeatureCollection', features }))
    },
    fitTo(what, padding = EDGE) {
      const bounds = boundsFor(what)
      const { clientWidth, clientHeight } = container
      const room = Math.min(clientWidth - padding.left - padding.right, clientHeight - padding.top - padding.bottom)
      if (!bounds || clientWidth === 0 || clientHeight === 0) return false
      map.fitBounds([[...bounds.southWest] as [number, number], [...bounds.northEast] as [number, number]], {
        padding: room > 80 ? { ...padding } : 0,
        maxZoom: 21,
        bearing: map.getBearing(),
        // From the whole world there is nothing to see on the way.
        duration: options.reducedMotion || !isPlaced ? 0 : 400,
      })
      isPlaced = true
      return true
    },
    getView: view,
    setView({ centre, zoom, bearingDeg }) {
      isPlaced = true
      map.jumpTo({ center: [...centre] as [number, number], zoom, bearing: bearingDeg })
    },
    zoomBy: (steps) => void map.zoomTo(map.getZoom() + steps, { duration: options.reducedMotion ? 0 : 200 }),
    turnNorth: () => void map.rotateTo(0, { duration: options.reducedMotion ? 0 : 200 }),
    on(event, hear) {
      hearers[event].add(hear)
      return () => hearers[event].delete(hear)
    },
    picture: () =>
      then(
        () =>
          new Promise<Blob>((resolve, reject) => {
            map.once('idle', () =>
              map
                .getCanvas()
                .toBlob((blob) => (blob ? resolve(blob) : reject(new Error('the map could not be made a picture')))),
            )
            map.triggerRepaint()
          }),
      ).then((blob) => blob ?? Promise.reject(new Error('the map is gone'))),
    async drawn(withPhotos) {
      const showing = withPhotos ? shownPhotos : []
      const names = SOURCES.filter((name) => name !== 'selected' && name !== 'surface')
      const told = await then(() => Promise.all(names.map((name) => source(name).getData())))
      return {
        layers: layersFor({ ...theme, palette: ON_PAPER, overPhoto: showing.length > 0 }, ramp),
        sources: {
          ...Object.fromEntries((told ?? []).map((data, n) => [names[n]!, data as FeatureCollection])),
          surface: ground.features(),
        },
        ramp,
        photos: showing,
      }
    },
    drawing: {
      map,
      featuresOf: (layer) => store.features(layer),
      get changes() {
        return changes
      },
      hold(hidden) {
        held = true
        hiddenNow = hidden
        tell('hover', null)
        void apply(store.hide(hidden))
        if (hidden.length > 0 && selected.length > 0) void showSelected()
      },
      release(placed, after) {
        held = false
        const wasHidden = hiddenNow.length > 0
        hiddenNow = []
        if (placed.length > 0) changes++
        const applied = apply(store.letBack(placed), after && Promise.allSettled([after]).then(painted))
        if (!((wasHidden || placed.length > 0) && selected.length > 0)) return applied
        return Promise.all([applied, inTurn(showSelected)]).then(() => undefined)
      },
      thingAt: pointer.thingAt,
      thingsIn: pointer.thingsIn,
    },
    destroy() {
      destroyed = true
      map.remove()
    },
  }
}

/** The device's place with the ring of its accuracy, told in pixels at zoom 0. */
function positionFeature([lon, lat]: LonLat, accuracyM: number): Feature {
  return {
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [lon, lat] },
    properties: { radius_px: accuracyM / metresPerPixel(lat, 0) },
  }
}
