import { effect, untracked } from '@preact/signals'
import type { FarmMap, Thing } from '../../map/farmMap.ts'
import { entry, placeTapped } from '../picking/entry.ts'
import { position } from '../picking/position.ts'
import { lostSurface, onSitingMap } from '../siting/onMap.ts'
import { choose, chosen } from '../state/chosen.ts'
import { layDown } from '../state/drawing.ts'
import { openFarm } from '../state/farm.ts'
import { stopLaying, tapWhileLaying } from '../state/laying.ts'
import { mapLook } from '../state/light.ts'
import { farmMap, hover, mapFault, mapView, tapped } from '../state/mapHandle.ts'
import { showPane } from '../state/pane.ts'
import { photos } from '../state/photos.ts'
import { placedAnew, placedNow, placer } from '../state/placing.ts'
import { bedOfPlanting } from '../state/plantings.ts'
import { several, takeIn } from '../state/several.ts'
import { layers, patched, wholeLayers } from '../state/shown.ts'
import { swipe } from '../state/swipe.ts'
import { tapTaker } from '../state/tapTaker.ts'
import { closeWalk, walking } from '../state/walking.ts'
import { sheet, today, view, viewAsked } from '../state/where.ts'
import { posts } from '../supports/posts.ts'
import { chooseZone, surface, zones } from '../yield/onMap.ts'
import { yieldTapped } from '../yield/yieldHere.ts'

/** Makes the map in its element and keeps it the same as the page; returns what takes it away again. */
export function holdMap(element: HTMLElement): () => void {
  let gone = false
  let stops: readonly (() => void)[] = []
  void import('../../map/makeMap.ts').then(({ makeMap }) => {
    if (gone) return
    const at = view.value
    const map = makeMap(element, {
      sheet: sheet.value,
      look: mapLook.value,
      today: today.peek(),
      label: 'Map. Arrow keys move it, plus and minus zoom, Enter opens the card of what is in its middle.',
      reducedMotion: matchMedia('(prefers-reduced-motion: reduce)').matches,
      ...(at && { view: { centre: [at.lon, at.lat], zoom: at.zoom, bearingDeg: at.bearing } }),
    })
    stops = follow(map)
    farmMap.value = map
    if (at) mapView.value = map.getView()
  })
  return () => {
    gone = true
    layDown()
    stopLaying()
    closeWalk()
    for (const stop of stops) stop()
    farmMap.value?.destroy()
    farmMap.value = null
  }
}

function follow(map: FarmMap): readonly (() => void)[] {
  const placed = { value: view.value !== null }
  return [
    map.on('pick', ({ thing, zone, at, more }) => {
      tapped.value = at
      if (walking.value || tapWhileLaying(thing, bedOf(thing))) return
      if (placer.value && sheet.value === 'ground') return placer.value.take(at)
      if (more && thing && sheet.value === 'ground') return takeOneMore(thing)
      if (tapTaker.value) {
        tapTaker.value({ at, bed: bedUnder(thing), row: thing?.kind === 'rows' ? thing.id : null })
        return
      }
      if (zone !== null && sheet.value === 'yield') chooseZone(zone)
      else if (sheet.value === 'picking' && !chosen.value) void placeTapped(thing, at)
      else void choose(bedTapped() ?? thing)
    }),
    map.on('hover', (told) => {
      hover.value = told
    }),
    map.on('view', (told) => {
      if (!placed.value) return
      mapView.value = told
      view.value = { lon: told.centre[0], lat: told.centre[1], zoom: told.zoom, bearing: told.bearingDeg }
    }),
    map.on('fault', ({ detail }) => {
      mapFault.value = detail
    }),
    effect(() => map.setLook(mapLook.value)),
    effect(() => {
      const one = chosen.value ?? pickedFrom()
      map.setSelected(several.value.length > 0 ? several.value : one ? [one] : [])
    }),
    effect(() => map.setPosition(position.value)),
    effect(() => void map.setSurface(sheet.value === 'siting' ? lostSurface.value : surface.value)),
    effect(() => void map.setSiting(onSitingMap.value)),
    effect(() => void map.setZones(sheet.value === 'siting' ? null : zones.value)),
    effect(() => void map.setPosts(posts.value)),
    effect(() => {
      const onGround = sheet.value === 'ground'
      const kept = photos.value.flatMap(({ photo, picture, opacity, visible, everywhere }) =>
        picture
          ? [{ ...picture, opacity, visible: visible && (everywhere || onGround) && photo.id !== placedAnew.value }]
          : [],
      )
      void map.setPhotos(placedNow.value ? [...kept, { ...placedNow.value, visible: onGround }] : kept)
    }),
    effect(() => map.setSwipe(swipe.value)),
    followLayers(map, placed),
    effect(() => {
      if (viewAsked.value === 0) return
      const at = untracked(() => view.value)
      if (at) map.setView({ centre: [at.lon, at.lat], zoom: at.zoom, bearingDeg: at.bearing })
    }),
  ]
}

/**
 * Whole layers when the day changes, only the changes after a step; a farm just opened is fitted into view. Until it is
 * `placed`, by that or by the address, what the map says of its view is nobody's choice and is not kept.
 */
function followLayers(map: FarmMap, placed: { value: boolean }): () => void {
  let fitted: string | null = null
  const whole = effect(() => {
    if (wholeLayers.value === 0) return
    const all = untracked(() => layers.value)
    if (!all) return
    void map.setLayers(all)
    const farm = untracked(() => openFarm.value?.entry.id ?? null)
    if (fitted === farm) return
    fitted = farm
    if (placed.value) return
    placed.value = true
    fitFarm(map)
    mapView.value = map.getView()
  })
  const changes = effect(() => {
    if (patched.value) void map.patch(patched.value.layers)
  })
  return () => {
    whole()
    changes()
  }
}

/** The bed that a tapped row lies in. */
function bedOf(thing: Thing | null): string | null {
  if (thing?.kind !== 'rows') return null
  return layers.peek()?.rows.features.find(({ properties }) => properties.id === thing.id)?.properties.bed ?? null
}

/** With what is chosen already, a tap with Shift or Ctrl selects several. */
function takeOneMore(thing: Thing): void {
  if (chosen.value && several.value.length === 0) takeIn([chosen.value], 'add')
  takeIn([thing], 'toggle')
  chosen.value = null
  showPane('card')
}

/** The bed of a tapped bed, row or planting. */
function bedUnder(thing: Thing | null): string | null {
  if (thing?.kind === 'beds') return thing.id
  return thing?.kind === 'plantings' ? (bedOfPlanting.peek().get(thing.id) ?? null) : bedOf(thing)
}

/** On the Yield sheet a tap asks for the bed, whatever stands in it. */
function bedTapped(): Thing | null {
  const id = sheet.peek() === 'yield' ? yieldTapped.peek()?.id : undefined
  return id === undefined ? null : { kind: 'beds', id }
}

/** On the Picking sheet, what the pick is entered of. */
function pickedFrom(): Thing | null {
  const { place } = entry.value
  if (sheet.value !== 'picking' || !place || place.is === 'spot') return null
  return place.is === 'bed' ? { kind: 'beds', id: place.bed.id } : { kind: 'plantings', id: place.planting.planting }
}

/** All of the farm; or, with nothing drawn yet, the place that it was given. */
function fitFarm(map: FarmMap): void {
  if (map.fitTo(null)) return
  const origin = openFarm.peek()?.origin
  if (origin) map.setView({ centre: origin, zoom: 17, bearingDeg: 0 })
}
