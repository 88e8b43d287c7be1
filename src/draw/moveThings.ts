import type { Metres } from '../../geo/plane/lonLat.ts'
import { arrowStep, zoomByKey } from './crosshair.ts'
import { guidesOf } from './guides.ts'
import type { Hearer } from './hand.ts'
import { distanceM, wayDeg } from './measureShape.ts'
import { NO_MEASURES } from './noMeasures.ts'
import { middleOf, motion } from './ops/moved.ts'
import type { Pixel } from './overlay.ts'
import { linesOf, placeGeometry } from './placeGeometry.ts'
import type { LiveMeasures, PlacedThing, Problem, SessionWork } from './session.ts'
import { type Held, hold } from './snap.ts'
import type { Table } from './table.ts'

const GRAB_PX = { mouse: 12, touch: 26 } as const
/** How far beyond the things their turning mark stands. */
const BEYOND_PX = 44
/** Corners that look for something to snap to while many things are moved. */
const MOST_SNAPPING = 60
const MOST_M = 50_000

interface Done {
  readonly turnDeg: number
  readonly by: Metres
}
const NOTHING: Done = { turnDeg: 0, by: [0, 0] }

/** Moving and turning several things together, about the middle of them all. */
export function moveThings(
  table: Table,
  things: readonly PlacedThing[],
): SessionWork & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  const { plane } = ground
  const drawn = things.flatMap(({ geometry }) => linesOf(geometry, plane))
  const corners = drawn.flat()
  const about = middleOf(corners)
  const snapping = corners.length <= MOST_SNAPPING ? corners : []
  let done = NOTHING
  let past: readonly Done[] = []
  let heldTo: Held | null = null
  let typed: { distanceM: number | null; bearingDeg: number | null } = { distanceM: null, bearingDeg: null }

  const along = () => callbacks.along?.() ?? []
  const place = (how = done) => motion({ about, ...how })
  const middleNow = (): Metres => [about[0] + done.by[0], about[1] + done.by[1]]
  const turnMark = (): Pixel => {
    const [x, y] = ground.toPixel(middleNow())
    const reach = corners.reduce((most, at) => {
      const [u, v] = ground.toPixel(place()(at))
      return Math.max(most, Math.hypot(u - x, v - y))
    }, 0)
    const { clientWidth, clientHeight } = map.getCanvas()
    const r = Math.min(reach + BEYOND_PX, Math.max(80, Math.min(clientWidth, clientHeight) / 2 - 40))
    const a = ((done.turnDeg - map.getBearing()) * Math.PI) / 180
    return [x + r * Math.sin(a), y - r * Math.cos(a)]
  }

  const measuresNow = (): LiveMeasures => {
    const far = corners.some((at) => !(Math.hypot(...place()(at)) <= MOST_M))
    return {
      ...NO_MEASURES,
      corners: things.length,
      snapped: heldTo?.snapped ?? null,
      held: heldTo?.snapped === 'corner' ? ['corner'] : (heldTo?.guides.map(({ as }) => as) ?? []),
      problem: far ? 'too wide a farm' : null,
      at: plane.toLonLat(middleNow()),
      moved: {
        distanceM: Math.hypot(...done.by),
        bearingDeg: wayDeg([0, 0], done.by) ?? 0,
        turnDeg: ((((done.turnDeg + 180) % 360) + 360) % 360) - 180,
      },
    }
  }
  const show = () => {
    const to = place()
    const pixels = (lines: readonly (readonly Metres[])[]) =>
      lines.map((line) => line.map((at) => ground.toPixel(to(at))))
    const measures = measuresNow()
    const points = drawn.filter((line) => line.length === 1)
    table.overlay.draw({
      area: [],
      drawn: pixels(drawn.filter((line) => line.length > 1)),
      coming: [],
      soft: pixels([...points, ...along().flatMap(({ geometry }) => linesOf(geometry, plane))]),
      faulty: measures.problem !== null,
      guides: guidesOf(heldTo, ground.toPixel),
      marks: [
        { at: turnMark(), as: 'turn', chosen: false, large: false },
        { at: ground.toPixel(middleNow()), as: 'whole', chosen: false, large: false },
        ...(heldTo?.snapped
          ? [{ at: ground.toPixel(heldTo.at), as: 'snapped' as const, chosen: false, large: false }]
          : []),
      ],
      words: [],
      crosshair: null,
    })
    callbacks.onMeasure(measures)
  }
  const change = (to: Done) => {
    past = [...past, done]
    done = to
    heldTo = null
    show()
  }

  /** How much further things must go for the corner that is nearest to something to lie on it. */
  const snapBy = (to: Done, free: boolean): Held | null => {
    if (free) return null
    let best: { held: Held; offM: number; by: Metres } | null = null
    for (const corner of snapping) {
      const at = place(to)(corner)
      const about = ground.around(ground.toPixel(at), false)
      const held = hold(at, about)
      const offM = distanceM(held.at, at)
      if (!held.snapped || held.snapped === 'extension') continue
      const rank = held.snapped === 'corner' ? offM : offM + about.reachM
      if (!best || rank < best.offM) best = { held, offM: rank, by: [held.at[0] - at[0], held.at[1] - at[1]] }
    }
    if (best) done = { ...to, by: [to.by[0] + best.by[0], to.by[1] + best.by[1]] }
    return best?.held ?? null
  }

  let grip: { readonly turn: boolean; readonly from: Metres; readonly start: Done } | null = null
  const dragTo = (at: Pixel, free: boolean, coarse: boolean) => {
    if (!grip) return
    const to = ground.toMetres(at)
    if (grip.turn) {
      const middle = middleNow()
      const turnDeg = grip.start.turnDeg + (wayDeg(middle, to) ?? 0) - (wayDeg(middle, grip.from) ?? 0)
      done = { ...done, turnDeg: coarse ? Math.round(turnDeg / 15) * 15 : turnDeg }
      heldTo = null
    } else {
      done = { ...done, by: [grip.start.by[0] + to[0] - grip.from[0], grip.start.by[1] + to[1] - grip.from[1]] }
      heldTo = snapBy(done, free)
    }
    show()
  }

  const takeBack = () => {
    done = past.at(-1) ?? NOTHING
    past = past.slice(0, -1)
    heldTo = null
    show()
  }
  const finish = (): Problem | null => {
    const { problem } = measuresNow()
    if (problem) {
      show()
      return problem
    }
    const still = done.turnDeg % 360 === 0 && Math.hypot(...done.by) === 0
    const to = place()
    const all = still ? [] : [...things, ...along()]
    table.finishAll(
      all.map((thing) => ({ ...thing, geometry: placeGeometry(thing.geometry, plane, to) })),
      measuresNow(),
    )
    return null
  }
  /** Whether a place on the screen is on the things, or within the box about them. */
  const nearThings = ([x, y]: Pixel, touch: boolean): boolean => {
    const to = place()
    const pixels = corners.map((at) => ground.toPixel(to(at)))
    const slack = GRAB_PX[touch ? 'touch' : 'mouse']
    const [xs, ys] = [pixels.map((p) => p[0]), pixels.map((p) => p[1])]
    const among = (at: number, all: readonly number[]) =>
      at >= all.reduce((a, b) => Math.min(a, b)) - slack && at <= all.reduce((a, b) => Math.max(a, b)) + slack
    return pixels.length > 0 && among(x, xs) && among(y, ys)
  }

  return {
    show,
    type(what, value) {
      if (what === 'turnDeg') return change({ ...done, turnDeg: value ?? 0 })
      if (what === 'distanceM' || what === 'bearingDeg') {
        typed = { ...typed, [what]: value }
        const bearing = typed.bearingDeg
        if (typed.distanceM === null || bearing === null) return
        const a = (bearing * Math.PI) / 180
        change({ ...done, by: [typed.distanceM * Math.sin(a), typed.distanceM * Math.cos(a)] })
      }
    },
    putCorner: () => undefined,
    dropCorner: () => undefined,
    takeBack,
    clear: () => change(NOTHING),
    finish,
    hearer: {
      grab(at, { touch }) {
        const mark = turnMark()
        const turn = Math.hypot(mark[0] - at[0], mark[1] - at[1]) <= GRAB_PX[touch ? 'touch' : 'mouse']
        if (!turn && !nearThings(at, touch)) return false
        grip = { turn, from: ground.toMetres(at), start: done }
        return true
      },
      drag: (at, { free, more }) => dragTo(at, free, more),
      drop() {
        if (grip && grip.start !== done) past = [...past, grip.start]
        grip = null
        show()
      },
      tap: () => show(),
      hover(at, { touch }) {
        const mark = turnMark()
        const turn = at !== null && Math.hypot(mark[0] - at[0], mark[1] - at[1]) <= GRAB_PX.mouse
        table.canTake(at !== null && (turn || nearThings(at, touch)))
      },
      key(event) {
        if (zoomByKey(map, event)) return true
        const step = arrowStep(event)
        const turn = { ',': -1, '.': 1, '<': -0.1, '>': 0.1 }[event.key]
        if (step) {
          const [x, y] = ground.toPixel(middleNow())
          const [u, v] = [ground.toMetres([x, y]), ground.toMetres([x + step[0], y + step[1]])]
          change({ ...done, by: [done.by[0] + v[0] - u[0], done.by[1] + v[1] - u[1]] })
        } else if (turn !== undefined) change({ ...done, turnDeg: done.turnDeg + turn })
        else if (event.key === 'Enter') finish()
        else if (event.key === 'Backspace') takeBack()
        else return false
        return true
      },
    },
  }
}
