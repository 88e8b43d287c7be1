import type { ControlPoint, Tape } from '../../../../geo/photo/controlPoints.ts'
import type { PhotoFit } from '../../../../geo/photo/fitPhoto.ts'
import type { PlacedPhoto } from '../../../../geo/photo/placement.ts'
import { lonWithin180 } from '../../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { PhotoPlace } from '../../../desk/door.ts'
import type { Mark } from './readPlacing.ts'

/** A finished placing. */
export interface Placed {
  readonly plane: Plane
  readonly fit: PhotoFit
  readonly placed: PlacedPhoto
  readonly points: readonly ControlPoint[]
  readonly tapes: readonly Tape[]
}

/** A photo's place as its record keeps it. `marks` are those that the fit's points come from, in their order. */
export function placeOf({ plane, fit, placed, tapes }: Placed, marks: readonly Mark[], opacity: number): PhotoPlace {
  return {
    opacity: opacity === 1 ? null : opacity,
    corners: placed.corners.map(([lon, lat]) => [lon, lat]) as PhotoPlace['corners'],
    control_points: marks.map(({ spot, place }) => ({
      col: spot![0],
      row: spot![1],
      lon: lonWithin180(place![0]),
      lat: place![1],
    })),
    residuals: {
      fit: fit.kind,
      rmse_m: fit.rmseM,
      points: fit.points.map(({ eastM, northM, offM, leftOutM }) => ({
        east_m: eastM,
        north_m: northM,
        off_m: offM,
        left_out_m: leftOutM,
      })),
      tapes_off_m: [...fit.tapesOffM],
    },
    placed_by: {
      fit: fit.kind,
      plane: [...plane.origin],
      transform: [...fit.transform.slice(0, 8), 1] as never,
      width_px: placed.widthPx,
      height_px: placed.heightPx,
      tapes: tapes.map(({ from, to, lengthM }) => ({ from: [...from], to: [...to], length_m: lengthM })),
    },
  }
}
