import type { PhotoCorners } from '../../../geo/photo/placement.ts'
import { FARTHEST_M, greatCircleM } from '../../../geo/plane/farthest.ts'
import type { Database } from '../../../geo/store/database.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { Refusal } from '../refusal.ts'

/** Refuses a photo of another place: an archive can't hold one so far from its farm, and nothing could be drawn on it. */
export async function refuseFar(db: Database, corners: PhotoCorners): Promise<void> {
  const origin = await readOrigin(db)
  const farM = origin ? Math.max(...corners.map(([lon, lat]) => greatCircleM(origin, [lon, lat]))) : 0
  if (farM > FARTHEST_M)
    throw new Refusal(
      'photo',
      `This photo lies ${Math.round(farM / 1000).toLocaleString('en')} km from the farm’s middle: it is of another place, or its grid is another. Nothing of it is kept.`,
    )
}
