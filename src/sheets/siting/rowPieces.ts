import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { SIDES, type Side } from '../../../geo/supports/sideLine.ts'
import type { SitingPlan } from '../../desk/siting/sitingDoor.ts'
import type { Siting } from '../../map/farmMap.ts'

type Piece = Siting['features'][number]

/**
 * Rows of a plan as they are in a year, with what climbs them: those that stand then strong, those that are built later
 * with their year, those of that season along the bed's middle (at its left where that is taken); dotted where else a
 * support could stand. `lineOf` is in lon/lat, null where the bed is not there any more.
 */
export function rowPieces(
  plan: Pick<SitingPlan, 'rows' | 'one_season'> | null,
  year: number | null,
  beds: readonly string[],
  lineOf: (bed: string, side: Side) => readonly [LonLat, LonLat] | null,
): Piece[] {
  const line = (bed: string, side: Side, properties: Piece['properties']): Piece[] => {
    const along = lineOf(bed, side)
    return along
      ? [{ type: 'Feature', geometry: { type: 'LineString', coordinates: along.map((at) => [...at]) }, properties }]
      : []
  }
  const then = year ?? Number.NaN
  const rows = new Map(plan?.rows.map((row) => [row.bed, row]))
  const pulled = new Map(plan?.one_season.map(({ bed, years }) => [bed, years[then]]))
  return beds.flatMap((bed) => {
    const [row, family] = [rows.get(bed), pulled.get(bed)]
    const side = row?.side === 'middle' ? 'left' : 'middle'
    const season = family ? line(bed, side, { as: 'season', words: family }) : []
    if (!row) {
      const free = SIDES.filter((one) => !family || one !== side)
      return [...free.flatMap((one) => line(bed, one, { as: 'candidate' })), ...season]
    }
    const stands = row.stands || row.built <= then
    const told = stands
      ? ({ as: 'chosen', words: row.years[then] ?? 'nothing' } as const)
      : ({ as: 'later', words: String(row.built) } as const)
    return [...season, ...line(bed, row.side, told)]
  })
}
