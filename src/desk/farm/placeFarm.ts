import type { Geometry } from 'geojson'
import type { Photo } from '../../../geo/model/photos.ts'
import { positionsOf } from '../../../geo/plane/geometry.ts'
import { type LonLat, lonAbout, lonWithin180 } from '../../../geo/plane/lonLat.ts'
import type { Edit } from '../../../geo/store/edit.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { setPlane } from '../../../geo/store/setPlane.ts'
import type { FarmInHand } from './keeper.ts'

/**
 * Sees to it that the farm has a plane before its first shape: about that shape's middle; or from its first photo placed
 * by control points: the plane that these were reckoned in. Where it is set by this step,
 * or stands in the database only, the step records it with the farm. The plane is kept even where the step then fails,
 * since the engine does not forget one that it has used.
 */
export async function placeFarm(farm: FarmInHand, edits: readonly Edit[]): Promise<readonly Edit[]> {
  const first = edits.map(placeOf).find((place) => place !== null)
  if (!first || farm.isPlaced) return edits
  let origin = await readOrigin(farm.db)
  if (!origin) {
    origin = first
    await setPlane(farm.db, origin)
    await farm.log.append([{ plane: origin }])
  }
  farm.isPlaced = true
  const [record] = await farm.db.rows<{ origin_lon: number | null }>('select origin_lon from farm')
  if (!record || record.origin_lon !== null || edits.some((edit) => edit.kind === 'farm')) return edits
  const [origin_lon, origin_lat] = origin
  return [...edits, { do: 'change', kind: 'farm', id: 'farm', to: { origin_lon, origin_lat } }]
}

/** Where a plane would lie for an edit: about its shape's middle, or where a photo was placed in metres already. */
function placeOf(edit: Edit): LonLat | null {
  if (edit.kind === 'photos') {
    const to = edit.do === 'add' ? edit.record : edit.do === 'change' ? edit.to : {}
    return (to as Partial<Photo>).placed_by?.plane ?? null
  }
  const shape = shapeOf(edit)
  return shape && middleOf(shape)
}

function shapeOf(edit: Edit): Geometry | null {
  const shape =
    edit.do === 'add' ? edit.record.geom : edit.do === 'change' ? (edit.to.geom as Geometry | undefined) : null
  return shape ?? null
}

/** The middle of a shape's box, to a ten-millionth of a degree. */
function middleOf(shape: Geometry): LonLat {
  const positions = [...positionsOf(shape)]
  const about = positions[0]![0]!
  const lons = positions.map((p) => lonAbout(about, p[0]!))
  const lats = positions.map((p) => p[1]!)
  const middle = (values: number[]) => Math.round(((Math.min(...values) + Math.max(...values)) / 2) * 1e7) / 1e7
  return [lonWithin180(middle(lons)), middle(lats)]
}
