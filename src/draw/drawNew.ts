import type { Metres } from '../../geo/plane/lonLat.ts'
import { arrowStep, moveCrosshair, zoomByKey } from './crosshair.ts'
import { guidesOf } from './guides.ts'
import type { Hearer, Touching } from './hand.ts'
import { areaM2, distanceM, lineLengthM, measureShape, wayDeg } from './measureShape.ts'
import { NO_MEASURES } from './noMeasures.ts'
import type { Pixel } from './overlay.ts'
import { problemIn } from './problemIn.ts'
import type { Drawn, LiveMeasures, PlacedThing, Problem, SessionWork } from './session.ts'
import { type Corners, type EditGeometry, isArea, type Shape, shapeOf } from './shape.ts'
import {
  drawsWidth,
  FORM,
  holdPointer,
  isFull,
  newSketch,
  putCorner,
  type Sketch,
  sketchShape,
  takeCornerBack,
  typedWidthPlace,
  wholeTyped,
} from './sketch.ts'
import type { Held } from './snap.ts'
import type { Table } from './table.ts'
import { sideWords } from './words.ts'

/** How near a tap must come to a corner to mean it. */
const ON_CORNER_PX = { mouse: 8, touch: 20 } as const

/** Drawing something new, corner by corner; `of` is what a hole or a cut is drawn upon. */
export function drawNew(
  table: Table,
  what: Drawn,
  of: PlacedThing | null,
): SessionWork & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  const form = FORM[what]
  const strip = what === 'bed' || what === 'bed outline'
  const upon: Shape | null = of && shapeOf(of.geometry as EditGeometry, ground.plane)
  let sketch: Sketch = newSketch(what)
  let pointer: { readonly at: Pixel; readonly free: boolean; readonly touch?: boolean } | null = null
  let crosshair: Pixel | null = null
  /** What was measured: lines, and outlines that were closed. */
  let measured: readonly { readonly corners: Corners; readonly closed: boolean }[] = []

  const held = (): Held | null => {
    const typed = wholeTyped(sketch)
    if (typed) return { at: typed, snapped: 'typed', guides: [] }
    if (!pointer) return null
    const about = ground.around(pointer.at, pointer.free)
    // A finger sees no guide before it taps, so it is held to nothing that lies further off.
    return holdPointer(sketch, ground.toMetres(pointer.at), pointer.touch ? { ...about, far: [] } : about)
  }

  const measuresWith = (now: Held | null): LiveMeasures => {
    const shape = sketchShape(sketch, now?.at ?? null)
    const last = sketch.corners.at(-1)
    const corners = shape.parts[0] ?? []
    const axis = form === 'rectangle' && corners.length === 2
    const plain = axis
      ? { ...measureShape({ type: 'LineString', parts: [corners] }, false), areaM2: null }
      : measureShape(shape, strip || form === 'rectangle')
    const ring: Shape = { type: 'Polygon', parts: [corners] }
    const measures = what === 'measure' && corners.length > 2 ? { ...plain, areaM2: areaM2(ring) } : plain
    return {
      ...NO_MEASURES,
      ...measures,
      corners: sketch.corners.length,
      segmentM: last && now ? distanceM(last, now.at) : null,
      segmentDeg: last && now ? wayDeg(last, now.at) : null,
      snapped: now?.snapped ?? null,
      held: now?.snapped === 'corner' ? ['corner'] : (now?.guides.map(({ as }) => as) ?? []),
      problem: problemIn(what, shape, upon),
      at: now ? ground.plane.toLonLat(now.at) : null,
      sums: what === 'measure' ? sums() : null,
    }
  }
  const sums = (): NonNullable<LiveMeasures['sums']> => {
    const outlines = measured.filter(({ closed }) => closed)
    const lines = measured.filter(({ closed }) => !closed)
    return {
      lines: lines.length,
      lengthM: lines.reduce((sum, { corners }) => sum + lineLengthM(corners), 0),
      outlines: outlines.length,
      areaM2: outlines.reduce((sum, { corners }) => sum + areaM2({ type: 'Polygon', parts: [corners] }), 0),
    }
  }

  const sidesOf = (ring: Corners, closed: boolean) =>
    ring.flatMap((p, i): [Metres, Metres][] => {
      const next = ring[i + 1] ?? (closed ? ring[0] : undefined)
      return next ? [[p, next]] : []
    })

  const show = () => {
    const now = held()
    const { corners } = sketch
    const shape = sketchShape(sketch, now?.at ?? null)
    const ring = shape.parts[0] ?? []
    const pixels = ring.map(ground.toPixel)
    const area = isArea(shape) && ring.length > 2
    const standing = pixels.slice(0, corners.length)
    const measures = measuresWith(now)
    const sides = sidesOf(ring, area)
    const before = measured.map(({ corners, closed }) => [...corners, ...(closed ? corners.slice(0, 1) : [])])
    const words = [
      ...before.flatMap((line) => sidesOf(line, false)),
      ...(form === 'rectangle' && area ? sides.slice(0, 2) : sides),
    ]
    table.overlay.draw({
      area: [...(area ? [pixels] : []), ...measured.flatMap((m) => (m.closed ? [m.corners.map(ground.toPixel)] : []))],
      drawn: [standing, ...before.map((line) => line.map(ground.toPixel))],
      coming: now ? [[...pixels.slice(Math.max(0, corners.length - 1)), ...(area ? pixels.slice(0, 1) : [])]] : [],
      faulty: measures.problem === 'leaves its ground' || (measures.problem === 'crosses itself' && ring.length > 3),
      guides: guidesOf(now, ground.toPixel),
      marks: [
        ...standing.map((at, i) => ({
          at,
          as: 'corner' as const,
          chosen: i === corners.length - 1,
          large: i === 0 && closes() && corners.length > 2,
        })),
        ...(now?.snapped && now.snapped !== 'typed'
          ? [{ at: ground.toPixel(now.at), as: 'snapped' as const, chosen: false, large: false }]
          : []),
      ],
      words: sideWords(words, ground.toPixel, callbacks.showLength),
      crosshair,
    })
    callbacks.onMeasure(measures)
  }
  /** Whether a tap on the first corner ends it. */
  const closes = () => form === 'area' || what === 'measure'

  const finish = (): Problem | null => {
    if (what === 'measure') {
      if (sketch.corners.length > 1) measured = [...measured, { corners: sketch.corners, closed: false }]
      sketch = newSketch(what)
      show()
      return null
    }
    const shape = sketchShape(sketch, null)
    const unready = drawsWidth(sketch) || (form === 'rectangle' && !isFull(sketch))
    const problem = unready ? 'too few corners' : problemIn(what, shape, upon)
    if (problem) {
      show()
      return problem
    }
    table.finish(shape, (geometry) => ({
      ...measuresWith(null),
      ...measureShape(shapeOf(geometry, ground.plane), strip || form === 'rectangle'),
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

  const tap = (at: Pixel, { touch, free }: Pick<Touching, 'touch' | 'free'>) => {
    pointer = { at, free, touch }
    const now = held()
    const { corners } = sketch
    const typed = now?.snapped === 'typed'
    if (!typed && closes() && corners.length > 2 && meansCorner(corners[0], at, touch)) {
      if (what !== 'measure') return void finish()
      measured = [...measured, { corners, closed: true }]
      sketch = newSketch(what)
      return show()
    }
    if (!typed && !drawsWidth(sketch) && meansCorner(corners.at(-1), at, touch)) {
      if (form !== 'rectangle' && corners.length > 1) finish()
      return
    }
    if (touch) pointer = null
    if (now) put(now.at)
  }
  const takeBack = () => {
    if (sketch.corners.length === 0) measured = measured.slice(0, -1)
    else sketch = takeCornerBack(sketch)
    show()
  }

  return {
    show,
    type(field, value) {
      if (field === 'turnDeg' || field === 'distanceM') return
      sketch = { ...sketch, [field]: value }
      show()
    },
    putCorner() {
      const at = held()?.at ?? typedWidthPlace(sketch)
      if (at) put(at)
    },
    dropCorner: () => undefined,
    takeBack,
    clear() {
      measured = []
      sketch = newSketch(what)
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
        } else if (event.key === 'Backspace') {
          takeBack()
          return true
        } else return false
        if (crosshair) pointer = { at: crosshair, free: event.altKey }
        show()
        return true
      },
    },
  }
}
