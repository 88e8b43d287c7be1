import type { LonLat } from '../plane/lonLat.ts'
import { PLANE_SRID, planeText } from '../plane/plane.ts'
import type { Database } from './database.ts'

/** PROJ keeps a plane under its number once it has used it, so a number is used once in the life of an engine. */
const MOST = 1000
let counted = 0

/**
 * Reckons in a plane about `origin` that the database does not keep: for a look before the farm has its own. Gives the
 * number that the plane has meanwhile.
 */
export async function inTrialPlane<T>(tx: Database, origin: LonLat, look: (srid: number) => Promise<T>): Promise<T> {
  counted = (counted % MOST) + 1
  const srid = PLANE_SRID + counted
  await tx.rows('insert into spatial_ref_sys (srid, proj4text) values ($1, $2)', [srid, planeText(origin)])
  const seen = await look(srid)
  await tx.rows('delete from spatial_ref_sys where srid = $1', [srid])
  return seen
}
