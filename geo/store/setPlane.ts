import type { LonLat } from '../plane/lonLat.ts'
import { PLANE_SRID, planeText } from '../plane/plane.ts'
import type { Database } from './database.ts'

/**
 * Gives the database the farm's plane. Must come before its first geometry: PROJ keeps a plane once used, and every
 * `plan` column was reckoned by it. No authority is named, since PROJ would look it up and fail.
 */
export async function setPlane(db: Database, origin: LonLat): Promise<void> {
  await db.rows(
    `insert into spatial_ref_sys (srid, proj4text) values ($1, $2)
     on conflict (srid) do update set proj4text = excluded.proj4text, auth_name = null, auth_srid = null, srtext = null`,
    [PLANE_SRID, planeText(origin)],
  )
}

/** True when the database has its farm's plane. */
export async function hasPlane(db: Database): Promise<boolean> {
  const rows = await db.rows('select 1 from spatial_ref_sys where srid = $1', [PLANE_SRID])
  return rows.length > 0
}
