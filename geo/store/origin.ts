import type { LonLat } from '../plane/lonLat.ts'
import { PLANE_SRID } from '../plane/plane.ts'
import type { Database } from './database.ts'

/** Where the farm's plane touches the earth, as the database has it; null where it has no plane yet. */
export async function readOrigin(db: Database): Promise<LonLat | null> {
  const [row] = await db.rows<{ text: string }>('select proj4text as text from spatial_ref_sys where srid = $1', [
    PLANE_SRID,
  ])
  const parts = row && /\+lat_0=(\S+) \+lon_0=(\S+)/.exec(row.text)
  return parts ? [Number(parts[2]), Number(parts[1])] : null
}
