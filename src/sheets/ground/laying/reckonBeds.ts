import { type Area, areaM2 } from '../../../../geo/layout/area.ts'
import { type LaidBed, layBeds } from '../../../../geo/layout/layBeds.ts'
import { type LaidRow, layRows } from '../../../../geo/layout/layRows.ts'
import { longestEdge } from '../../../../geo/layout/longestEdge.ts'
import { namesByPattern } from '../../../../geo/layout/names.ts'
import type { Obstacle } from '../../../../geo/layout/openSpans.ts'
import type { BedsAsked } from './readPlans.ts'

/** A bed to be laid, with its name and its rows. */
export interface NamedBed {
  readonly name: string
  readonly bed: LaidBed
  readonly rows: readonly LaidRow[]
}

/** What laying out would make, with its figures: lengths in metres, areas in m². */
export interface BedsReckoned {
  readonly bearingDeg: number
  readonly beds: readonly NamedBed[]
  readonly widthM: number
  readonly empty: number
  readonly strips: number
  readonly bedM: number
  readonly rowM: number
  readonly rows: number
  readonly areaM2: number
  readonly fieldM2: number
}

/** Lays a field out as asked. `lineDeg` is the bearing taken from a line, or from the beds that are there. Null where nothing fits. */
export function reckonBeds(
  field: Area,
  obstacles: readonly Obstacle[],
  asked: BedsAsked,
  lineDeg: number | null,
): BedsReckoned | null {
  const bearingDeg = (((asked.bearingDeg ?? lineDeg ?? longestEdge(field)?.bearingDeg ?? 0) % 180) + 180) % 180
  const laid = layBeds(field, obstacles, { ...asked.plan, bearingDeg })
  if (!laid) return null
  const turn = asked.countFrom === 'right' ? -1 : 1
  const inOrder = [...laid.beds].sort((a, b) => turn * (a.strip - b.strip) || a.piece - b.piece)
  const names = namesByPattern(asked.names, inOrder.length)
  const beds = inOrder.map(
    (bed, n): NamedBed => ({ name: names[n]!, bed, rows: asked.rows ? layRows([bed.corners], asked.rows) : [] }),
  )
  const sum = (of: (bed: NamedBed) => number) => beds.reduce((all, bed) => all + of(bed), 0)
  return {
    bearingDeg,
    beds,
    widthM: laid.widthM,
    empty: laid.empty,
    strips: laid.strips,
    bedM: sum(({ bed }) => bed.lengthM),
    rowM: sum(({ rows }) => rows.reduce((all, row) => all + row.lengthM, 0)),
    rows: sum(({ rows }) => rows.length),
    areaM2: sum(({ bed }) => bed.lengthM * laid.widthM),
    fieldM2: areaM2(field),
  }
}
