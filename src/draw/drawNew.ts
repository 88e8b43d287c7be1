import type { Metres } from '../../geo/plane/lonLat.ts'
import { arrowStep, moveCrosshair, zoomByKey } from './crosshair.ts'
import type { Hearer, Touching } from './hand.ts'
import { distanceM, measureShape } from './measureShape.ts'
import type { Pixel } from './overlay.ts'
import { problemOf } from './problemOf.ts'
import type { Drawn, LiveMeasures, Problem, Session } from './session.ts'
import { isArea, shapeOf } from './shape.ts'
import {
  drawsWidth,
  holdPointer,
  isFull,
  newSketch,
  putCorner,
  type Sketch,
  sketchShape,
  takeCornerBack,
} from './sketch.ts'
import type { Held } from './snap.ts'
import type { Table } from './table.ts'
import { sideWords } from './words.ts'

/** How near a tap must come to a corner to mean it. */
const ON_CORNER_PX = { mouse: 8, touch: 20 } as const

/** Drawing something new, corner by corner. */
export function drawNew(
  table: Table,
  what: Drawn,
): Omit<Session, 'tool' | 'cancel'> & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  let sketch: Sketch = newSketch(what)
  let pointer: { readonly at: Pixel; readonly free: boolean } | null = null
  let crosshair: Pixel | null = null

  const held = (): Held | null =>
    pointer && holdPointer(sketch, ground.toMetres(pointer.at), ground.around(pointer.at, pointer.free))

  const measuresWith = (now: Held | null): LiveMeasures => {
    const shape = sketchShape(sketch, now?.at ?? null)
    const last = sketch.corners.at(-1)
    const corners = shape.parts[0] ?? []
    const axis = what === 'bed' && corners.length === 2
    const measures = axis
      ? { ...measureShape({ type: 'LineString', parts: [corners] }, false), areaM2: null }
      : measureShape(shape, what === 'bed' || what === 'bed outline')
    return {
      ...measures,
      corners: sketch.corners.length,
      segmentM: last && now ? distanceM(last, now.at) : null,
      snapped: now?.snapped ?? null,
      problem: problemOf(shape),
      at: now ? ground.plane.toLonLat(now.at) : null,
    }
  }

  const show = () => {
    const now = held()
    const { corners } = sketch
    const shape = sketchShape(sketch, now?.at ?? null)
    const ring = shape.parts[0] ?? []
    const pixels = ring.map(ground.toPixel)
    const area = isArea(shape) && ring.length > 2
    const standing = pixels.slice(0, corners.length)
    const closes = what === 'field' || what === 'bed outline'
    const measures = measuresWith(now)
    const sides = ring.flatMap((p, i): [Metres, Metres][] => {
      const next = ring[i + 1] ?? (area ? ring[0] : undefined)
      return next ? [[p, next]] : []
    })
    table.overlay.draw({
      area: area ? [pixels] : [],
      drawn: [standing],
      coming: now ? [[...pixels.slice(Math.max(0, corners.length - 1)), ...(area ? pixels.slice(0, 1) : [])]] : [],
      faulty: measures.problem === 'crosses itself' && ring.length > 3,
      marks: [
        ...standing.map((at, i) => ({
          at,
          as: 'corner' as const,
          chosen: i === corners.length - 1,
          large: i === 0 && closes && corners.length > 2,
        })),
        ...(now?.snapped && now.snapped !== 'typed' && now.snapped !== 'square'
          ? [{ at: ground.toPixel(now.at), as: 'snapped' as const, chosen: false, large: false }]
          : []),
      ],
      words: sideWords(what === 'bed' && area ? sides.slice(0, 2) : sides, ground.toPixel, callbacks.showLength),
      crosshair,
    })
    callbacks.onMeasure(measures)
  }

  const finish = (): Problem | null => {
    const shape = sketchShape(sketch, null)
    const problem = drawsWidth(sketch) || (what === 'bed' && !isFull(sketch)) ? 'too few corners' : problemOf(shape)
    if (problem) {
      show()
      return problem
    }
    table.finish(shape, (geometry) => ({
      ...measuresWith(null),
      ...measureShape(shapeOf(geometry, ground.plane), what === 'bed' || what === 'bed outline'),
    }))
    return null
  }

  const put = (at: Metres) => {
    const last = sketch.corners.at(-1)
    if (last && distanceM(last, at) === 0) return show()
    if (sketch.corners.length === 0) {
      const lonLat = ground.plane.toLonLat(at)
      ground.settle(lonLat)
      sketch = putCorner(sketch, ground.plane.toMetres(lonLat))
    } else sketch = putCorner(sketch, at)
    if (!isFull(sketch)) return show()
    if (finish()) {
      sketch = takeCornerBack(sketch)
      show()
    }
  }

  const meansCorner = (corner: Metres | undefined, at: Pixel, touch: boolean): boolean => {
    if (!corner) return false
    const [x, y] = ground.toPixel(corner)
    return Math.hypot(x - at[0], y - at[1]) <= ON_CORNER_PX[touch ? 'touch' : 'mouse']
  }

  const tap = (at: Pixel, { touch, free }: Touching) => {
    pointer = { at, free }
    const now = held()
    const { corners } = sketch
    const typed = now?.snapped === 'typed'
    const closes = isArea(sketchShape(sketch, null)) && what !== 'bed' && corners.length > 2
    if (!typed && closes && meansCorner(corners[0], at, touch)) return void finish()
    if (!typed && !drawsWidth(sketch) && meansCorner(corners.at(-1), at, touch)) {
      if (what !== 'bed' && corners.length > 1) finish()
      return
    }
    if (touch) pointer = null
    if (now) put(now.at)
  }

  return {
    show,
    typeLength(lengthM) {
      sketch = { ...sketch, lengthM }
      show()
    },
    typeWidth(widthM) {
      sketch = { ...sketch, widthM }
      show()
    },
    putCorner() {
      const now = held()
      if (now) return put(now.at)
      const [a, b] = sketch.corners
      if (!drawsWidth(sketch) || sketch.widthM === null || !a || !b) return
      const left: Metres = [(a[0] + b[0]) / 2 - (b[1] - a[1]), (a[1] + b[1]) / 2 + (b[0] - a[0])]
      put(holdPointer(sketch, left, { edges: [], reachM: 0 }).at)
    },
    takeBack() {
      sketch = takeCornerBack(sketch)
      show()
    },
    finish,
    hearer: {
      grab: () => false,
      drag: () => undefined,
      drop: () => undefined,
      tap,
      hover(at, { free }) {
        if (!at) return
        crosshair = null
        pointer = { at, free }
        show()
      },
      key(event) {
        if (zoomByKey(map, event)) return true
        const middle: Pixel = [map.getCanvas().clientWidth / 2, map.getCanvas().clientHeight / 2]
        const step = arrowStep(event)
        if (step) crosshair = moveCrosshair(map, crosshair ?? middle, step)
        else if (event.key === 'Enter') {
          if (crosshair) {
            tap(crosshair, { touch: false, free: event.altKey })
            return true
          }
          crosshair = middle
        } else if (event.key === 'Backspace') sketch = takeCornerBack(sketch)
        else return false
        if (crosshair) pointer = { at: crosshair, free: event.altKey }
        show()
        return true
      },
    },
  }
}
