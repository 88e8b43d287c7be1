import { longAxis } from '../../geo/plane/longAxis.ts'
import type { Metres } from '../../geo/plane/lonLat.ts'
import { type Corners, isArea, polygonsOf, type Shape, twiceArea } from './shape.ts'

/** Null where a shape has no such measure. */
export interface ShapeMeasures {
  readonly areaM2: number | null
  readonly lengthM: number | null
  readonly widthM: number | null
  readonly bearingDeg: number | null
}

const NONE: ShapeMeasures = { areaM2: null, lengthM: null, widthM: null, bearingDeg: null }

export const distanceM = (a: Metres, b: Metres): number => Math.hypot(b[0] - a[0], b[1] - a[1])

/** Length of a line in metres. */
export const lineLengthM = (line: Corners): number =>
  line.slice(1).reduce((sum, p, i) => sum + distanceM(line[i]!, p), 0)

/** Area of polygons in m², holes taken off: the planar area, as ST_Area of the stored `plan`. */
export const areaM2 = (shape: Shape): number =>
  polygonsOf(shape).reduce(
    (sum, rings) => sum + rings.reduce((net, ring, i) => net + (i === 0 ? 1 : -1) * Math.abs(twiceArea(ring)), 0) / 2,
    0,
  )

/** The measures of a shape in the plane as `measure` tells them of the kept record: a strip's length and bearing are of its least rectangle, its width is area over length. */
export function measureShape(shape: Shape, strip: boolean): ShapeMeasures {
  if (shape.type === 'Point') return NONE
  if (!isArea(shape)) {
    const line = shape.parts[0] ?? []
    if (line.length < 2) return NONE
    const [a, b] = [line[0]!, line.at(-1)!]
    return {
      ...NONE,
      lengthM: lineLengthM(line),
      bearingDeg: distanceM(a, b) > 0 ? bearingDeg([b[0] - a[0], b[1] - a[1]]) : null,
    }
  }
  const area = areaM2(shape)
  const least = strip ? longAxis(shape.parts[0] ?? []) : null
  if (!least) return { ...NONE, areaM2: area }
  return {
    areaM2: area,
    lengthM: least.lengthM,
    widthM: area / least.lengthM,
    bearingDeg: bearingDeg([least.ux, least.uy]),
  }
}

/** The way from one place to another: degrees from north, clockwise, 0 to below 360; null where both are one. */
export function wayDeg(from: Metres, to: Metres): number | null {
  const [east, north] = [to[0] - from[0], to[1] - from[1]]
  if (east === 0 && north === 0) return null
  const deg = (Math.atan2(east, north) * 180) / Math.PI
  return deg < 0 ? (deg + 360) % 360 : deg
}

/** A direction's angle from north, clockwise, told the same for both ways along it: 0 to below 180. */
function bearingDeg([eastM, northM]: Metres): number {
  const deg = (Math.atan2(eastM, northM) * 180) / Math.PI
  const half = ((deg % 180) + 180) % 180
  return half === 180 ? 0 : half
}
