import type { LineString } from 'geojson'
import { HELD_WITHIN_M } from '../measure/held.ts'
import type { Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import type { HeldPiece } from './heldByDay.ts'

interface Climbing {
  readonly planting: string
  readonly crop: string
  readonly crop_name: string
  readonly after_days: number | null
  readonly bed: string
  readonly field: string
  readonly set_out: string
  readonly cleared: string | null
  readonly line: string
  readonly length_m: number
  readonly supports: { put_up: string | null; taken_down: string | null; line: string }[] | null
}

/**
 * Each climbing planting that stands in a season, from one change to the next (set out, cleared, a run put up or taken
 * down beside it), with how much of it is held meanwhile. A row is held where it runs within 0.6 m of a run.
 */
export async function heldThroughSeason(db: Database, season: { from: string; to: string }): Promise<HeldPiece[]> {
  const rows = await db.rows<Climbing>(
    `with climbing as materialized (
       select * from stretches where climbs and set_out <= $2::date and (cleared is null or cleared > $1::date)
     )
     select t.planting, t.crop, c.name as crop_name, c.support_after_days as after_days, t.bed, b.field, t.set_out,
       t.cleared, encode(st_asewkb(t.plan), 'hex') as line, st_length(t.plan) as length_m,
       (select jsonb_agg(jsonb_build_object('put_up', s.put_up, 'taken_down', s.taken_down,
          'line', encode(st_asewkb(s.plan), 'hex')))
        from supports s where st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M})
          and (s.put_up is null or s.put_up <= $2::date) and (s.taken_down is null or s.taken_down > $1::date)) as supports
     from climbing t join crops c on c.id = t.crop join beds b on b.id = t.bed
     order by t.set_out, t.planting`,
    [season.from, season.to],
  )
  return rows.flatMap((row) => piecesOf(row, season))
}

function piecesOf(row: Climbing, season: { from: string; to: string }): HeldPiece[] {
  const line = lineOf(row.line)
  const from = [row.set_out, season.from].sort()[1]!
  const until = row.cleared !== null && row.cleared <= season.to ? row.cleared : null
  const supports = (row.supports ?? []).map((one) => ({ ...one, at: lineOf(one.line) }))
  const inside = (day: string | null): day is string => day !== null && day > from && day < (until ?? '9999-12-31')
  const turns = supports.flatMap(({ put_up, taken_down }) =>
    [put_up, taken_down].filter(inside).filter((day) => day <= season.to),
  )
  const days = [from, ...new Set(turns)].sort()
  return days.map((day, n): HeldPiece => {
    const standing = supports.filter(
      ({ put_up, taken_down }) => (put_up === null || put_up <= day) && (taken_down === null || taken_down > day),
    )
    const spans =
      line.length > 1
        ? spansWithin(
            line,
            standing.map(({ at }) => at),
            HELD_WITHIN_M,
          )
        : []
    return {
      planting: row.planting,
      crop: row.crop,
      cropName: row.crop_name,
      afterDays: row.after_days,
      bed: row.bed,
      field: row.field,
      setOut: row.set_out,
      from: day,
      until: days[n + 1] ?? until,
      lengthM: row.length_m,
      heldM: Math.min(spansLength(spans), row.length_m),
    }
  })
}

function lineOf(hex: string): readonly Metres[] {
  const shape = fromEwkb(hex)
  return shape.type === 'LineString' ? ((shape as LineString).coordinates as unknown as Metres[]) : []
}
