import type { Map as MapLibre } from 'maplibre-gl'
import type { Pixel } from './overlay.ts'

export interface Touching {
  readonly touch: boolean
  /** Alt is held: nothing is to snap. */
  readonly free: boolean
  /** Shift, Ctrl or the command key is held: one more. */
  readonly more: boolean
}

/** What a session hears of mouse, finger, pen and keys on the map. */
export interface Hearer {
  /** Pressed here; true takes hold of what is there, so that the map stays where it is. */
  grab(at: Pixel, how: Touching): boolean
  drag(at: Pixel, how: Touching): void
  drop(): void
  tap(at: Pixel, how: Touching): void
  /** The mouse is here, pressing nothing; null when it has left. */
  hover(at: Pixel | null, how: Touching): void
  /** True where the key meant something. */
  key(event: KeyboardEvent): boolean
}

export const withMore = (event: MouseEvent | KeyboardEvent): boolean => event.shiftKey || event.ctrlKey || event.metaKey

/** A press that moves less is a tap. */
const TAP_PX = { mouse: 4, touch: 12 } as const

/** Keeps the click and double click that follow a tap from the map, which would take them for its own once the tap has ended the drawing. */
function swallowClicks(container: HTMLElement): void {
  const stop = new AbortController()
  const options = { capture: true, signal: stop.signal }
  for (const name of ['click', 'dblclick'])
    container.addEventListener(name, (event) => event.stopPropagation(), options)
  window.addEventListener('pointerdown', () => stop.abort(), options)
}

/** Listens until the function returned is called. Pressing and moving the map stays as ever, but for what was taken hold of. */
export function listenToHand(map: MapLibre, hear: Hearer): () => void {
  const ground = map.getCanvasContainer()
  const canvas = map.getCanvas()
  const stop = new AbortController()
  const pressed = new Set<number>()
  let press: { id: number; at: Pixel; moved: boolean; taken: boolean } | null = null

  const pixel = (event: PointerEvent): Pixel => {
    const box = ground.getBoundingClientRect()
    return [event.clientX - box.left, event.clientY - box.top]
  }
  const how = (event: PointerEvent): Touching => ({
    touch: event.pointerType !== 'mouse',
    free: event.altKey,
    more: withMore(event),
  })
  const listen = (
    name: 'pointerdown' | 'pointermove' | 'pointerup' | 'pointercancel' | 'pointerleave',
    run: (event: PointerEvent) => void,
    on: EventTarget = ground,
  ) => on.addEventListener(name, (event) => run(event as PointerEvent), { signal: stop.signal })
  const letGo = () => {
    if (press?.taken) {
      hear.drop()
      map.dragPan.enable()
    }
    press = null
  }

  listen('pointerdown', (event) => {
    pressed.add(event.pointerId)
    if (pressed.size > 1 || (event.pointerType === 'mouse' && event.button !== 0)) return letGo()
    const at = pixel(event)
    press = { id: event.pointerId, at, moved: false, taken: hear.grab(at, how(event)) }
    if (press.taken) map.dragPan.disable()
  })
  listen(
    'pointermove',
    (event) => {
      const at = pixel(event)
      if (!press) {
        if (event.pointerType === 'mouse' && event.target instanceof Node && ground.contains(event.target))
          hear.hover(at, how(event))
        return
      }
      if (event.pointerId !== press.id) return
      const limit = TAP_PX[event.pointerType === 'mouse' ? 'mouse' : 'touch']
      press.moved ||= Math.hypot(at[0] - press.at[0], at[1] - press.at[1]) > limit
      if (press.moved && press.taken) hear.drag(at, how(event))
    },
    window,
  )
  listen(
    'pointerup',
    (event) => {
      pressed.delete(event.pointerId)
      if (event.pointerId !== press?.id) return
      const { at, moved } = press
      letGo()
      if (moved) return
      swallowClicks(map.getContainer())
      hear.tap(at, how(event))
    },
    window,
  )
  listen(
    'pointercancel',
    (event) => {
      pressed.delete(event.pointerId)
      letGo()
    },
    window,
  )
  listen('pointerleave', (event) => hear.hover(null, how(event)))
  canvas.addEventListener(
    'keydown',
    (event) => {
      if (!hear.key(event)) return
      event.preventDefault()
      event.stopPropagation()
    },
    { signal: stop.signal },
  )

  const zooms = map.doubleClickZoom.isEnabled()
  map.doubleClickZoom.disable()
  map.keyboard.disable()
  return () => {
    letGo()
    stop.abort()
    if (zooms) map.doubleClickZoom.enable()
    map.keyboard.enable()
  }
}
