import type { LineString } from 'geojson'
import type { Metres } from '../plane/lonLat.ts'
import { type Span, spansLength, spansWithin } from '../plane/within.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'

/** How far from a support a row may run and still be held by it, in metres. */
export const HELD_WITHIN_M = 0.6

/** A climbing planting's stretch in the plane, its length, and the spans of it that supports hold. */
export interface ClimbingStretch {
  readonly planting: string
  readonly bed: string
  readonly line: readonly Metres[]
  readonly lengthM: number
  readonly held: readonly Span[]
  readonly heldM: number
}

/**
 * The climbing plantings that stand on a day, each with what of it is held: the row runs within 0.6 m of a support
 * standing that day. Given beds or plantings, only those in or among them.
 */
export async function climbingStretches(
  db: Database,
  on: string,
  only: { beds: readonly string[] } | { plantings: readonly string[] } | null = null,
): Promise<ClimbingStretch[]> {
  const named = only !== null && 'beds' in only ? 'any(array(select plantings_in($2)))' : 'any($2)'
  const scope = only === null ? '' : `and planting = ${named}`
  const values = only === null ? [on] : [on, 'beds' in only ? only.beds : only.plantings]
  const rows = await db.rows<{
    planting: string
    bed: string
    line: string
    length_m: number
    supports: string[] | null
  }>(
    `with climbing as materialized (
       select planting, bed, plan from stretches where climbs and standing(set_out, cleared, $1::date) ${scope}
     )
     select t.planting, t.bed, encode(st_asewkb(t.plan), 'hex') as line, st_length(t.plan) as length_m,
      (select array_agg(encode(st_asewkb(s.plan), 'hex')) from supports s
       where st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M}) and standing(s.put_up, s.taken_down, $1::date)) as supports
     from climbing t`,
    values,
  )
  return rows.map(({ planting, bed, line: hex, length_m, supports }) => {
    const line = lineOf(hex)
    const held = line.length > 1 ? spansWithin(line, (supports ?? []).map(lineOf), HELD_WITHIN_M) : []
    return { planting, bed, line, lengthM: length_m, held, heldM: Math.min(spansLength(held), length_m) }
  })
}

function lineOf(hex: string): readonly Metres[] {
  const shape = fromEwkb(hex)
  return shape.type === 'LineString' ? ((shape as LineString).coordinates as unknown as Metres[]) : []
}
