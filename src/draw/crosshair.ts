import type { Map as MapLibre } from 'maplibre-gl'
import type { Pixel } from './overlay.ts'

const STEP_PX = 10
const ARROWS: Readonly<Record<string, Pixel>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/** How far an arrow key moves things: 10 px, with Shift one; null for any other key. */
export function arrowStep({ key, shiftKey }: KeyboardEvent): Pixel | null {
  const arrow = ARROWS[key]
  if (!arrow) return null
  const step = shiftKey ? 1 : STEP_PX
  return [arrow[0] * step, arrow[1] * step]
}

/** Plus and minus zoom as on the map at rest; true where the key was one of them. */
export function zoomByKey(map: MapLibre, { key }: KeyboardEvent): boolean {
  const steps = key === '+' || key === '=' ? 1 : key === '-' ? -1 : 0
  if (steps !== 0) map.jumpTo({ zoom: map.getZoom() + steps })
  return steps !== 0
}

/** The crosshair a step further; where it would leave the map, the map moves under it instead. */
export function moveCrosshair(map: MapLibre, from: Pixel, [dx, dy]: Pixel): Pixel {
  const { clientWidth, clientHeight } = map.getCanvas()
  const [x, y] = [from[0] + dx, from[1] + dy]
  const margin = 24
  if (x >= margin && x <= clientWidth - margin && y >= margin && y <= clientHeight - margin) return [x, y]
  map.panBy([dx, dy], { animate: false })
  return from
}
