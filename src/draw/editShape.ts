import type { Metres } from '../../geo/plane/lonLat.ts'
import { arrowStep, zoomByKey } from './crosshair.ts'
import { guidesOf } from './guides.ts'
import type { Hearer, Touching } from './hand.ts'
import { distanceM, measureShape, wayDeg } from './measureShape.ts'
import { NO_MEASURES } from './noMeasures.ts'
import { carry } from './ops/carry.ts'
import { isRightAngled, moveRightAngled } from './ops/rightAngled.ts'
import type { OverlayPicture, Pixel } from './overlay.ts'
import { linesOf, placeGeometry } from './placeGeometry.ts'
import { problemOf } from './problemOf.ts'
import { cornerBefore, dropCorner, type Handle, handlesOf, moveHandle, sameHandle } from './reshape.ts'
import type { EditGeometry, EditKind, LiveMeasures, PlacedThing, Problem, SessionWork } from './session.ts'
import { isArea, type Shape, shapeOf } from './shape.ts'
import { atLength, free, type Held, hold, type Segment } from './snap.ts'
import type { Table } from './table.ts'
import { sideWords } from './words.ts'

const GRAB_PX = { mouse: 10, touch: 22 } as const

/** The place as far from another as it is, in a direction. */
function turnedTo(from: Metres, at: Metres, bearingDeg: number): Metres {
  const a = (bearingDeg * Math.PI) / 180
  const size = distanceM(from, at)
  return [from[0] + size * Math.sin(a), from[1] + size * Math.cos(a)]
}

/** Changing the shape of what stands. */
export function editShape(
  table: Table,
  kind: EditKind,
  geometry: EditGeometry,
): SessionWork & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  const first = shapeOf(geometry, ground.plane)
  let shape = first
  let past: readonly Shape[] = []
  let chosen: Handle | null = null
  let heldTo: Held | null = null
  let crossing: Handle | null = null

  const placeOf = (handle: Handle | null): Metres | null =>
    handlesOf(shape).find(([one]) => sameHandle(one, handle))?.[1] ?? null

  const measuresNow = (): LiveMeasures => {
    const at = placeOf(chosen)
    const before = chosen && cornerBefore(shape, chosen)
    return {
      ...NO_MEASURES,
      ...measureShape(shape, kind === 'beds'),
      corners: shape.parts.reduce((sum, part) => sum + part.length, 0),
      segmentM: at && before ? distanceM(before, at) : null,
      segmentDeg: at && before ? wayDeg(before, at) : null,
      snapped: heldTo?.snapped ?? null,
      held: heldTo?.snapped === 'corner' ? ['corner'] : (heldTo?.guides.map(({ as }) => as) ?? []),
      problem: problemOf(shape),
      at: at && ground.plane.toLonLat(at),
      canDrop: chosen !== null && dropCorner(shape, chosen) !== shape,
    }
  }

  /** What goes along, where it would come. */
  const alongNow = (): readonly PlacedThing[] => {
    const [before, after] = [first.parts[0] ?? [], shape.parts[0] ?? []]
    const along = callbacks.along?.() ?? []
    if (along.length === 0 || shape === first) return along
    const to = carry(before, after)
    return along.map((thing) => ({ ...thing, geometry: placeGeometry(thing.geometry, ground.plane, to) }))
  }
  const squarely = () => callbacks.keepsSquare?.() === true && isRightAngled(shape)

  const show = () => {
    const rings = shape.parts.map((part) => part.map(ground.toPixel))
    const area = isArea(shape)
    const measures = measuresNow()
    const sides = shape.parts.flatMap((part) =>
      part.flatMap((p, i): [Metres, Metres][] => {
        const next = part[i + 1] ?? (area ? part[0] : undefined)
        return next ? [[p, next]] : []
      }),
    )
    const marks: OverlayPicture['marks'] = handlesOf(shape)
      .map(([handle, at]) => ({
        at: ground.toPixel(at),
        as: handle.at,
        chosen: sameHandle(handle, chosen),
        large: sameHandle(handle, crossing),
      }))
      .reverse()
    table.overlay.draw({
      area: area ? rings : [],
      drawn: area ? rings.map((ring) => [...ring, ...ring.slice(0, 1)]) : rings,
      coming: [],
      soft: alongNow().flatMap(({ geometry }) => linesOf(geometry, ground.plane).map((l) => l.map(ground.toPixel))),
      guides: guidesOf(heldTo, ground.toPixel),
      faulty: measures.problem !== null,
      marks,
      words: sideWords(sides, ground.toPixel, callbacks.showLength),
      crosshair: null,
    })
    callbacks.onMeasure(measures)
  }

  const change = (next: Shape) => {
    past = [...past, shape]
    shape = next
  }
  const handleAt = (at: Pixel, touch: boolean): Handle | null => {
    let best: Handle | null = null
    let least: number = GRAB_PX[touch ? 'touch' : 'mouse']
    for (const [handle, place] of handlesOf(shape)) {
      const [x, y] = ground.toPixel(place)
      const off = Math.hypot(x - at[0], y - at[1])
      if (off >= least) continue
      least = off
      best = handle
    }
    return best
  }
  /** The sides that meet at a handle, but for their own ends there: what a corner may stay in line or square with. */
  const sidesAt = (handle: Handle): { from: Metres; own: Segment[] } | null => {
    const from = cornerBefore(shape, handle)
    const list = handle.at === 'corner' ? shape.parts[handle.part] : null
    if (!from || !list || handle.at !== 'corner') return null
    const before = cornerBefore(shape, { ...handle, corner: (handle.corner + list.length - 1) % list.length })
    return { from, own: before ? [[before, from]] : [] }
  }
  const bring = (handle: Handle, at: Pixel, { free: loose }: Touching) => {
    const place = ground.toMetres(at)
    const about = ground.around(at, loose)
    heldTo = handle.at === 'whole' ? free(place) : hold(place, about, loose ? null : sidesAt(handle))
    if (squarely() && handle.at !== 'whole') {
      shape = moveRightAngled(shape, handle, heldTo.at)
      chosen = handle
      return
    }
    const moved = moveHandle(shape, handle, heldTo.at)
    shape = moved.shape
    chosen = moved.handle
  }

  const finish = (): Problem | null => {
    const problem = problemOf(shape)
    if (problem) {
      show()
      return problem
    }
    table.finish(
      shape,
      (kept) => ({ ...measuresNow(), ...measureShape(shapeOf(kept, ground.plane), kind === 'beds') }),
      shape === first ? [] : alongNow(),
    )
    return null
  }
  const takeBack = () => {
    shape = past.at(-1) ?? shape
    past = past.slice(0, -1)
    if (!placeOf(chosen)) chosen = null
    heldTo = null
    show()
  }
  const drop = (handle: Handle) => {
    const next = dropCorner(shape, handle)
    if (next === shape) return
    change(next)
    chosen = null
    show()
  }

  let start: Shape | null = null
  /** From where the pointer took hold to the handle, kept through the drag so that nothing jumps. */
  let grip: Pixel = [0, 0]
  return {
    show,
    type(what, value) {
      const at = placeOf(chosen)
      const before = chosen && cornerBefore(shape, chosen)
      if (value === null || !chosen || !at || !before) return
      const to =
        what === 'lengthM' ? atLength(before, at, value) : what === 'bearingDeg' ? turnedTo(before, at, value) : null
      if (!to) return
      change(squarely() ? moveRightAngled(shape, chosen, to) : moveHandle(shape, chosen, to).shape)
      heldTo = { at: to, snapped: 'typed', guides: [] }
      show()
    },
    putCorner: () => undefined,
    dropCorner: () => chosen && drop(chosen),
    takeBack,
    clear() {
      if (shape !== first) change(first)
      chosen = null
      heldTo = null
      show()
    },
    finish,
    hearer: {
      grab(at, { touch }) {
        const handle = handleAt(at, touch)
        if (!handle) return false
        start = shape
        chosen = handle
        const [x, y] = ground.toPixel(placeOf(handle) ?? ground.toMetres(at))
        grip = [x - at[0], y - at[1]]
        show()
        return true
      },
      drag(at, how) {
        if (!start || !chosen) return
        bring(chosen, [at[0] + grip[0], at[1] + grip[1]], how)
        show()
      },
      drop() {
        if (start && start !== shape) past = [...past, start]
        start = null
        heldTo = null
        show()
      },
      tap(at, how) {
        if (handleAt(at, how.touch) || !chosen) return show()
        const before = shape
        bring(chosen, at, how)
        past = [...past, before]
        show()
      },
      hover(at, { touch }) {
        crossing = at && handleAt(at, touch)
        table.canTake(crossing !== null)
        show()
      },
      key(event) {
        if (zoomByKey(map, event)) return true
        const step = arrowStep(event)
        const place = placeOf(chosen)
        if (step && chosen && place) {
          const [x, y] = ground.toPixel(place)
          const to = ground.toMetres([x + step[0], y + step[1]])
          const square = squarely() && chosen.at !== 'whole'
          const moved = square
            ? { shape: moveRightAngled(shape, chosen, to), handle: chosen }
            : moveHandle(shape, chosen, to)
          change(moved.shape)
          chosen = moved.handle
        } else if (step) {
          map.panBy([step[0] * 4, step[1] * 4], { animate: false })
        } else if (event.key === 'Tab') {
          const handles = handlesOf(shape).map(([handle]) => handle)
          const now = handles.findIndex((handle) => sameHandle(handle, chosen))
          const next = event.shiftKey ? (now < 0 ? handles.length : now) - 1 : now + 1
          chosen = handles[next] ?? null
          if (!chosen) {
            show()
            return false
          }
        } else if (event.key === 'Delete' || event.key === 'Backspace') {
          if (chosen) drop(chosen)
          else takeBack()
        } else if (event.key === 'Enter') {
          finish()
          return true
        } else return false
        show()
        return true
      },
    },
  }
}
