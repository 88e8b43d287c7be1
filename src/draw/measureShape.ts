import { longAxis } from '../../geo/plane/longAxis.ts'
import type { Metres } from '../../geo/plane/lonLat.ts'
import type { LiveMeasures } from './session.ts'
import { type Corners, isArea, polygonsOf, type Shape, twiceArea } from './shape.ts'

export type ShapeMeasures = Pick<LiveMeasures, 'areaM2' | 'lengthM' | 'widthM' | 'bearingDeg'>

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

/** A direction's angle from north, clockwise, told the same for both ways along it: 0 to below 180. */
function bearingDeg([eastM, northM]: Metres): number {
  const deg = (Math.atan2(eastM, northM) * 180) / Math.PI
  const half = ((deg % 180) + 180) % 180
  return half === 180 ? 0 : half
}
