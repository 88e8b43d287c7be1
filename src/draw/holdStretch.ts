import type { LineString, Position } from 'geojson'
import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { partOfLine, type Span } from '../../geo/plane/within.ts'
import type { FarmMap } from '../map/farmMap.ts'
import { distanceTo } from '../map/hits.ts'
import { arrowStep, zoomByKey } from './crosshair.ts'
import { groundOf } from './ground.ts'
import { listenToHand } from './hand.ts'
import { makeOverlay, type OverlayMark, type OverlayPicture, type Pixel } from './overlay.ts'
import { ALL_SNAPS } from './snap.ts'

/** A stretch of a row of the farm, shown while it is being set out. */
export interface HeldStretch {
  readonly row: string
  readonly span: Span
  /** Stands beside it on the map. */
  readonly words: string
}

export interface StretchCallbacks {
  /** An end was moved, to whole steps of 5 cm. */
  onSpan(span: Span): void
  /** A row was tapped. */
  onRow(row: string): void
}

/** Setting a stretch out along its row by its two ends. Ends are dragged, or chosen with Tab and moved by the arrow keys (with Shift a metre at a time). */
export interface StretchHold {
  /** Shows stretches; the one at `active` has handles. */
  show(stretches: readonly HeldStretch[], active: number): void
  letGo(): void
}

const GRAB_PX = { mouse: 10, touch: 24 } as const
const TAP_PX = { mouse: 8, touch: 22 } as const
const STEP_M = 0.05
const LEAST_M = 0.05
const KEY_STEP_M = { fine: 0.1, coarse: 1 } as const
type End = 0 | 1

/** Takes the map's pointer and keys until it is let go. `origin` is where the farm's plane lies. */
export function holdStretch(farmMap: FarmMap, origin: LonLat, callbacks: StretchCallbacks): StretchHold {
  const { map } = farmMap.drawing
  const ground = groundOf(farmMap, origin, [], () => ALL_SNAPS)
  const overlay = makeOverlay(map.getContainer())
  let stretches: readonly HeldStretch[] = []
  let active = 0
  let chosen: End | null = null
  let crossing: End | null = null
  let grip: Pixel = [0, 0]

  const rowLines = () =>
    farmMap.drawing
      .featuresOf('rows')
      .flatMap(({ properties, geometry }) => (geometry.type === 'LineString' ? [{ id: properties.id, geometry }] : []))
  const lineOf = (row: string): readonly Metres[] => {
    const found = rowLines().find(({ id }) => id === row)
    return found ? metresOf(found.geometry) : []
  }
  const metresOf = ({ coordinates }: LineString) =>
    coordinates.map((at) => ground.plane.toMetres(at as unknown as LonLat))
  const held = (): { line: readonly Metres[]; span: Span } | null => {
    const one = stretches[active]
    if (!one) return null
    const line = lineOf(one.row)
    return line.length > 1 ? { line, span: one.span } : null
  }
  const endsOf = ({ line, span }: { line: readonly Metres[]; span: Span }): readonly [Metres, Metres] | null => {
    const part = partOfLine(line, span)
    return part.length > 1 ? [part[0]!, part.at(-1)!] : null
  }

  const draw = () => {
    const now = held()
    const ends = now && endsOf(now)
    const marks: OverlayMark[] = (ends ?? []).map((at, end) => ({
      at: ground.toPixel(at),
      as: 'corner',
      chosen: end === chosen,
      large: end === crossing,
    }))
    const words: OverlayPicture['words'] = stretches.flatMap(({ row, span, words }) => {
      const part = partOfLine(lineOf(row), span)
      if (part.length < 2) return []
      const [[ax, ay], [bx, by]] = [ground.toPixel(part[0]!), ground.toPixel(part.at(-1)!)]
      const turn = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI
      return [
        { at: [(ax + bx) / 2, (ay + by) / 2] as const, turnDeg: Math.abs(turn) > 90 ? turn + 180 : turn, text: words },
      ]
    })
    const pixels = (one: HeldStretch) => partOfLine(lineOf(one.row), one.span).map(ground.toPixel)
    overlay.draw({
      area: [],
      drawn: stretches.filter((_, i) => i === active).map(pixels),
      coming: stretches.filter((_, i) => i !== active).map(pixels),
      faulty: false,
      marks,
      words,
      crosshair: null,
    })
  }

  const endAt = (at: Pixel, touch: boolean): End | null => {
    const now = held()
    const ends = now && endsOf(now)
    if (!ends) return null
    const off = ends.map((end) => {
      const [x, y] = ground.toPixel(end)
      return Math.hypot(x - at[0], y - at[1])
    })
    const nearest: End = off[1]! <= off[0]! ? 1 : 0
    return off[nearest]! <= GRAB_PX[touch ? 'touch' : 'mouse'] ? nearest : null
  }
  const bring = (end: End, toM: number) => {
    const now = held()
    if (!now) return
    const lengthM = now.line
      .slice(1)
      .reduce((sum, [x, y], i) => sum + Math.hypot(x - now.line[i]![0], y - now.line[i]![1]), 0)
    const step = Math.abs(toM - lengthM) < STEP_M ? lengthM : Math.round(toM / STEP_M) * STEP_M
    const [from, to] = now.span
    const span: Span =
      end === 0
        ? [Math.min(Math.max(0, step), to - LEAST_M), to]
        : [from, Math.max(Math.min(lengthM, step), from + LEAST_M)]
    // At once, for the next key or move: the page's own answer comes a frame later.
    stretches = stretches.map((one, i) => (i === active ? { ...one, span } : one))
    draw()
    callbacks.onSpan(span)
  }

  const stopListening = listenToHand(map, {
    grab(at, { touch }) {
      const end = endAt(at, touch)
      const now = held()
      const ends = now && endsOf(now)
      if (end === null || !ends) return false
      chosen = end
      const [x, y] = ground.toPixel(ends[end])
      grip = [x - at[0], y - at[1]]
      draw()
      return true
    },
    drag(at) {
      const now = held()
      if (chosen !== null && now)
        bring(chosen, nearestAlong(now.line, ground.toMetres([at[0] + grip[0], at[1] + grip[1]])))
    },
    drop: draw,
    tap(at, { touch }) {
      if (endAt(at, touch) !== null) return
      const project = ([lon, lat]: Position): Pixel => {
        const { x, y } = map.project([lon!, lat!])
        return [x, y]
      }
      const near = rowLines()
        .map(({ id, geometry }) => ({ id, px: distanceTo(geometry, at, project).distancePx }))
        .sort((a, b) => a.px - b.px)[0]
      if (near && near.px <= TAP_PX[touch ? 'touch' : 'mouse']) callbacks.onRow(near.id)
    },
    hover(at, { touch }) {
      crossing = at && endAt(at, touch)
      map.getContainer().classList.toggle('can-take', crossing !== null)
      draw()
    },
    key(event) {
      if (zoomByKey(map, event)) return true
      const step = arrowStep(event)
      if (event.key === 'Tab') {
        const order: readonly (End | null)[] = event.shiftKey ? [null, 1, 0, null] : [null, 0, 1, null]
        chosen = held() ? (order[order.indexOf(chosen) + 1] ?? null) : null
        draw()
        return chosen !== null
      }
      if (!step) return false
      const now = held()
      if (chosen === null || !now) map.panBy([step[0] * 4, step[1] * 4], { animate: false })
      else {
        const onward = step[0] > 0 || step[1] < 0 ? 1 : -1
        bring(chosen, now.span[chosen] + onward * (event.shiftKey ? KEY_STEP_M.coarse : KEY_STEP_M.fine))
      }
      return true
    },
  })
  farmMap.drawing.hold([])
  map.getContainer().classList.add('drawing')
  map.on('move', draw)
  return {
    show(given, at) {
      if (at !== active) chosen = null
      stretches = given
      active = at
      draw()
    },
    letGo() {
      stopListening()
      map.off('move', draw)
      map.getContainer().classList.remove('drawing', 'can-take')
      void farmMap.drawing.release([])
      overlay.remove()
    },
  }
}

/** Metres along a line of the point of it that is nearest to a place. */
export function nearestAlong(line: readonly Metres[], [x, y]: Metres): number {
  let [along, best, least] = [0, 0, Number.POSITIVE_INFINITY]
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!]
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    const lengthM = Math.hypot(dx, dy)
    const t = lengthM === 0 ? 0 : Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (lengthM * lengthM)))
    const off = Math.hypot(x - a[0] - t * dx, y - a[1] - t * dy)
    if (off < least) {
      least = off
      best = along + t * lengthM
    }
    along += lengthM
  }
  return best
}
