import type { At, Box, Face, Mark, TextMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'

/** A name that wants a place on the map. */
export interface LabelAsk {
  /** Where its layer stands among the theme's: the higher, the sooner it is given room. */
  readonly layer: number
  readonly lines: readonly string[]
  readonly at: At
  /** Where `at` is on the block of words: from its left (0) to its right (1), and from its top to its foot. */
  readonly hold: readonly [across: number, down: number]
  readonly offsetMm: At
  readonly sizeMm: number
  readonly face: Face
  readonly colour: string
  readonly halo: TextMark['halo']
  readonly turnDeg: number
  readonly paddingMm: number
  /** Drawn even over others; and others may be drawn over it. */
  readonly always: boolean
  /** How many times it may move on along itself, past its own length, where there is no room for it. */
  readonly slides: number
}

const LINE = 1.2
/** From a line's top to its baseline, over the type size. */
const BASELINE = 0.95
/** Empty ground above and below the letters of a block of lines, over the type size. */
const CLEAR = [0.22, 0.15] as const
const rad = Math.PI / 180

interface Laid {
  readonly corners: readonly At[]
  readonly marks: readonly Mark[]
}

/**
 * Words without one lying on another, nor across the edge: later layers first, as the map has it; within a layer the
 * first asked. What finds no room, having moved on as often as it may, is left out. Words that would stand on their head are turned about.
 */
export function placeLabels(asks: readonly LabelAsk[], box: Box, type: Type): Mark[] {
  const taken: Laid[] = []
  const placed: { n: number; laid: Laid }[] = []
  const order = asks.map((ask, n) => ({ ask, n }))
  order.sort((a, b) => b.ask.layer - a.ask.layer || a.n - b.n)
  const fits = ({ corners }: Laid) =>
    corners.every((corner) => within(corner, box)) && !taken.some((other) => overlap(corners, other.corners))
  for (const { ask, n } of order) {
    let laid = layOut(upright(ask), type)
    if (!ask.always) {
      for (let times = 1; times <= ask.slides && !fits(laid); times += 1)
        laid = layOut(slid(upright(ask), times, type), type)
      if (!fits(laid)) continue
      taken.push(laid)
    }
    placed.push({ n, laid })
  }
  return placed.sort((a, b) => a.n - b.n).flatMap(({ laid }) => laid.marks)
}

function upright(ask: LabelAsk): LabelAsk {
  const turn = ((((ask.turnDeg + 180) % 360) + 360) % 360) - 180
  if (turn > -90.01 && turn <= 90.01) return { ...ask, turnDeg: turn }
  const [across, down] = ask.hold
  const [dx, dy] = ask.offsetMm
  return { ...ask, turnDeg: turn > 0 ? turn - 180 : turn + 180, hold: [1 - across, 1 - down], offsetMm: [-dx, -dy] }
}

/** Moved on along itself by so many times its length, away from the end that it is held by. */
function slid(ask: LabelAsk, times: number, type: Type): LabelAsk {
  const long = Math.max(...ask.lines.map((line) => type.widthMm(line, ask.sizeMm, ask.face))) + ask.sizeMm
  const [dx, dy] = ask.offsetMm
  return { ...ask, offsetMm: [dx + (ask.hold[0] > 0.5 ? -1 : 1) * times * long, dy] }
}

function layOut(ask: LabelAsk, type: Type): Laid {
  const { lines, at, hold, offsetMm, sizeMm, face, colour, halo, turnDeg, paddingMm } = ask
  const wide = Math.max(...lines.map((line) => type.widthMm(line, sizeMm, face)))
  const high = lines.length * LINE * sizeMm
  const [cos, sin] = [Math.cos(turnDeg * rad), Math.sin(turnDeg * rad)]
  const left = offsetMm[0] - hold[0] * wide
  const top = offsetMm[1] - hold[1] * high
  const turned = (x: number, y: number): At => [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos]
  const anchor = hold[0] < 0.25 ? 'start' : hold[0] > 0.75 ? 'end' : 'middle'
  const x = anchor === 'start' ? left : anchor === 'end' ? left + wide : left + wide / 2
  const p = paddingMm
  const [over, under] = [top + CLEAR[0] * sizeMm - p, top + high - CLEAR[1] * sizeMm + p]
  return {
    corners: [
      turned(left - p, over),
      turned(left + wide + p, over),
      turned(left + wide + p, under),
      turned(left - p, under),
    ],
    marks: lines.map((text, i): TextMark => {
      const place = turned(x, top + (i * LINE + BASELINE) * sizeMm)
      return { draw: 'text', text, at: place, sizeMm, face, colour, anchor, turnDeg, halo }
    }),
  }
}

const within = ([x, y]: At, { xMm, yMm, wideMm, highMm }: Box) =>
  x >= xMm && y >= yMm && x <= xMm + wideMm && y <= yMm + highMm

/** Whether two turned rectangles share ground: no side of either parts them (separating axes). */
function overlap(a: readonly At[], b: readonly At[]): boolean {
  for (const [p, q] of [
    [a[0]!, a[1]!],
    [a[1]!, a[2]!],
    [b[0]!, b[1]!],
    [b[1]!, b[2]!],
  ] as const) {
    const [nx, ny] = [q[0] - p[0], q[1] - p[1]]
    const along = (corners: readonly At[]) => corners.map(([x, y]) => x * nx + y * ny)
    const [one, other] = [along(a), along(b)]
    if (Math.max(...one) <= Math.min(...other) || Math.max(...other) <= Math.min(...one)) return false
  }
  return true
}
