import type { Metres } from '../../geo/plane/lonLat.ts'
import type { At, Box } from './marks.ts'

/**
 * How the plane lies on a page: `centre` comes to the middle of `box`, 1 m is 1000/`scale` mm, and the compass
 * direction `upDeg` (clockwise from the plane's north) is up the page.
 */
export interface Frame {
  readonly box: Box
  readonly centre: Metres
  /** N of 1:N. */
  readonly scale: number
  readonly upDeg: number
}

/** Scales that people measure at with a rule, largest first. Metric rules; and feet to an inch as on an engineer's. */
export const STANDARD_SCALES = {
  metric: [50, 100, 200, 250, 500, 750, 1000, 1250, 2000, 2500, 5000, 10_000, 20_000, 25_000, 50_000, 100_000],
  us: [60, 120, 240, 360, 480, 600, 720, 1200, 2400, 3600, 4800, 6000, 12_000, 24_000, 63_360, 126_720],
} as const

const rad = Math.PI / 180

/** From the plane to the page; exact but for rounding. */
export function toPaper({ box, centre, scale, upDeg }: Frame): (at: Metres) => At {
  const [cos, sin] = [Math.cos(upDeg * rad), Math.sin(upDeg * rad)]
  const mmPerM = 1000 / scale
  const [x0, y0] = [box.xMm + box.wideMm / 2, box.yMm + box.highMm / 2]
  return ([eastM, northM]) => {
    const [e, n] = [eastM - centre[0], northM - centre[1]]
    return [x0 + mmPerM * (e * cos - n * sin), y0 - mmPerM * (e * sin + n * cos)]
  }
}

/** From the page back to the plane. */
export function toPlane({ box, centre, scale, upDeg }: Frame): (at: At) => Metres {
  const [cos, sin] = [Math.cos(upDeg * rad), Math.sin(upDeg * rad)]
  const [x0, y0] = [box.xMm + box.wideMm / 2, box.yMm + box.highMm / 2]
  return ([xMm, yMm]) => {
    const right = ((xMm - x0) * scale) / 1000
    const up = ((y0 - yMm) * scale) / 1000
    return [centre[0] + right * cos + up * sin, centre[1] - right * sin + up * cos]
  }
}

/** The least upright rectangle about places, as they lie with `upDeg` up: its middle in the plane, and its sides. */
export interface Spread {
  readonly centre: Metres
  readonly acrossM: number
  readonly alongM: number
  readonly upDeg: number
}

/** Null of no places. */
export function spreadOf(places: Iterable<Metres>, upDeg: number): Spread | null {
  const [cos, sin] = [Math.cos(upDeg * rad), Math.sin(upDeg * rad)]
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const [e, n] of places) {
    const across = e * cos - n * sin
    const along = e * sin + n * cos
    left = Math.min(left, across)
    right = Math.max(right, across)
    low = Math.min(low, along)
    high = Math.max(high, along)
  }
  if (left > right) return null
  const [a, b] = [(left + right) / 2, (low + high) / 2]
  return { centre: [a * cos + b * sin, -a * sin + b * cos], acrossM: right - left, alongM: high - low, upDeg }
}

/** The least N at which the spread fits in the box with `roomMm` free on every side. */
export function tightestScale({ acrossM, alongM }: Spread, { wideMm, highMm }: Box, roomMm: number): number {
  const [wide, high] = [Math.max(1, wideMm - 2 * roomMm), Math.max(1, highMm - 2 * roomMm)]
  return Math.max((acrossM * 1000) / wide, (alongM * 1000) / high)
}

/** The largest standard scale (least N) that is no larger than the tightest; beyond the list, a round number of thousands. */
export function standardScale(tightest: number, units: keyof typeof STANDARD_SCALES): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, tightest)))
  return STANDARD_SCALES[units].find((scale) => scale >= tightest * (1 - 1e-9)) ?? Math.ceil(tightest / power) * power
}

/**
 * The direction to put up so that places fit a box at the largest scale: north where turning gains less than a tenth,
 * else that one of the directions along the places' least rectangle which lies nearest to north.
 */
export function bestTurn(places: readonly Metres[], longAxisDeg: number | null, box: Box, roomMm: number): number {
  const tightest = (upDeg: number) => {
    const spread = spreadOf(places, upDeg)
    return spread ? tightestScale(spread, box, roomMm) : Infinity
  }
  if (longAxisDeg === null) return 0
  const within180 = (deg: number) => ((((deg + 180) % 360) + 360) % 360) - 180
  const turns = [0, 90, 180, 270].map((quarter) => within180(longAxisDeg + quarter))
  const best = Math.min(...turns.map(tightest))
  if (best > 0.9 * tightest(0)) return 0
  const good = turns.filter((turn) => tightest(turn) <= best * 1.001)
  return good.reduce((a, b) => (Math.abs(b) < Math.abs(a) - 1e-9 ? b : a))
}
