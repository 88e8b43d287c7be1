import type { Position } from 'geojson'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import { type Frame, toPaper } from '../frame.ts'
import type { At } from '../marks.ts'

const placesKnown = new WeakMap<Plane, WeakMap<Position, Metres>>()

/** From lon/lat to the page, by way of the plane; a place met before is not reckoned again. */
export function placer(plane: Plane, frame: Frame): (at: Position) => At {
  const put = toPaper(frame)
  const metres = placesKnown.get(plane) ?? new WeakMap<Position, Metres>()
  placesKnown.set(plane, metres)
  return (at) => {
    let m = metres.get(at)
    if (!m) {
      m = plane.toMetres([at[0]!, at[1]!])
      metres.set(at, m)
    }
    return put(m)
  }
}
