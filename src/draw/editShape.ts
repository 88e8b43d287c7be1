import type { Metres } from '../../geo/plane/lonLat.ts'
import { arrowStep, zoomByKey } from './crosshair.ts'
import type { Hearer, Touching } from './hand.ts'
import { distanceM, measureShape } from './measureShape.ts'
import type { OverlayPicture, Pixel } from './overlay.ts'
import { problemOf } from './problemOf.ts'
import { cornerBefore, dropCorner, type Handle, handlesOf, moveHandle, sameHandle } from './reshape.ts'
import type { EditGeometry, EditKind, LiveMeasures, Problem, Session } from './session.ts'
import { isArea, type Shape, shapeOf } from './shape.ts'
import { atLength, type Held, snapToEdges } from './snap.ts'
import type { Table } from './table.ts'
import { sideWords } from './words.ts'

const GRAB_PX = { mouse: 10, touch: 22 } as const

/** Changing the shape of what stands. */
export function editShape(
  table: Table,
  kind: EditKind,
  geometry: EditGeometry,
): Omit<Session, 'tool' | 'cancel'> & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  let shape = shapeOf(geometry, ground.plane)
  let past: readonly Shape[] = []
  let chosen: Handle | null = null
  let heldTo: Held['snapped'] = null
  let crossing: Handle | null = null

  const placeOf = (handle: Handle | null): Metres | null =>
    handlesOf(shape).find(([one]) => sameHandle(one, handle))?.[1] ?? null

  const measuresNow = (): LiveMeasures => {
    const at = placeOf(chosen)
    const before = chosen && cornerBefore(shape, chosen)
    return {
      ...measureShape(shape, kind === 'beds'),
      corners: shape.parts.reduce((sum, part) => sum + part.length, 0),
      segmentM: at && before ? distanceM(before, at) : null,
      snapped: heldTo,
      problem: problemOf(shape),
      at: at && ground.plane.toLonLat(at),
    }
  }

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
  const bring = (handle: Handle, at: Pixel, { free }: Touching) => {
    const { edges, reachM } = ground.around(at, free)
    const to =
      handle.at === 'whole'
        ? { at: ground.toMetres(at), snapped: null }
        : snapToEdges(ground.toMetres(at), edges, reachM)
    heldTo = to.snapped
    const moved = moveHandle(shape, handle, to.at)
    shape = moved.shape
    chosen = moved.handle
  }

  const finish = (): Problem | null => {
    const problem = problemOf(shape)
    if (problem) {
      show()
      return problem
    }
    table.finish(shape, (kept) => ({ ...measuresNow(), ...measureShape(shapeOf(kept, ground.plane), kind === 'beds') }))
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
    typeLength(lengthM) {
      const at = placeOf(chosen)
      const before = chosen && cornerBefore(shape, chosen)
      if (lengthM === null || !chosen || !at || !before) return
      change(moveHandle(shape, chosen, atLength(before, at, lengthM)).shape)
      heldTo = 'typed'
      show()
    },
    typeWidth: () => undefined,
    putCorner: () => undefined,
    takeBack,
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
          const moved = moveHandle(shape, chosen, ground.toMetres([x + step[0], y + step[1]]))
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
