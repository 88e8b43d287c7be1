import type { Planting } from '../model/plantings.ts'
import { inOrderAcross } from './bedHistory.ts'
import { addYears } from './days.ts'
import type { Ground, GroundRow } from './ground.ts'
import { growingSeason } from './growingSeason.ts'
import { plantsAt } from './spacing.ts'
import { lineLengthM } from './stand.ts'

/** Where a copied planting goes: where it stood, or so many sides on in its bed, or so many beds on in its field. After the last comes the first. */
export interface MoveOn {
  readonly to: 'same place' | 'next side' | 'next bed'
  readonly by: number
}

/** A planting of one season as it would be in the next; `why` it can't be, where it can't. */
export interface Copied {
  readonly of: string
  readonly bed: string
  readonly planting: Omit<Planting, 'id'> | null
  readonly why: string | null
}

/**
 * The plantings that grow in a season, each a year later to the day, in the order of their beds. A stretch that a shorter
 * row does not hold is cut to it, and its plants with it. What stays for years and has no day of clearing is not copied.
 */
export function copySeason(ground: Ground, season: number, move: MoveOn): Copied[] {
  const rows = rowsByBed(ground)
  const order = new Map([...ground.beds.keys()].map((id, i) => [id, i]))
  return ground.plantings
    .flatMap((planting): Copied[] => {
      const { set_out, cleared } = planting
      if (growingSeason(set_out, cleared, ground.seasonStartMonth) !== season) return []
      const bed = (planting.row === null ? planting.bed : ground.rows.get(planting.row)?.bed) ?? null
      const crop = ground.crops.get(ground.varieties.get(planting.variety)?.crop ?? '')
      if (bed === null || !crop || cleared === set_out) return []
      if (cleared === null && (crop.stands_years ?? 1) > 1)
        return [{ of: planting.id, bed, planting: null, why: 'stays where it is: it stands for years' }]
      const later = { set_out: addYears(set_out, 1), cleared: cleared && addYears(cleared, 1) }
      const place = placeIn(ground, rows, planting, bed, move)
      if (typeof place === 'string') return [{ of: planting.id, bed, planting: null, why: place }]
      const { id: _, ...rest } = planting
      return [
        { of: planting.id, bed: place.inBed, planting: { ...rest, ...place.told, ...later, extra: {} }, why: null },
      ]
    })
    .sort((a, b) => (order.get(a.bed) ?? 0) - (order.get(b.bed) ?? 0))
}

type Place = { readonly inBed: string; readonly told: Partial<Planting> } | string

function placeIn(
  ground: Ground,
  rows: ReadonlyMap<string, readonly GroundRow[]>,
  planting: Planting,
  bed: string,
  { to, by }: MoveOn,
): Place {
  if (to === 'same place' || (to === 'next side' && planting.row === null)) return { inBed: bed, told: {} }
  const here = rows.get(bed) ?? []
  const at = here.findIndex(({ id }) => id === planting.row)
  if (to === 'next side') return cut(ground, planting, bed, here[(at + by) % here.length]!)
  const field = ground.beds.get(bed)!.field
  const beds = [...ground.beds.values()].filter((one) => one.field === field)
  const next = beds[(beds.findIndex(({ id }) => id === bed) + by) % beds.length]!
  if (planting.row === null) return cut(ground, planting, next.id, null)
  const there = rows.get(next.id) ?? []
  const row =
    there.find(({ side }) => side !== null && side === here[at]!.side) ?? there[Math.min(at, there.length - 1)]
  return row ? cut(ground, planting, next.id, row) : `bed ${next.name} has no rows`
}

function cut(ground: Ground, planting: Planting, bed: string, row: GroundRow | null): Place {
  const lengthM = lineLengthM(row?.line ?? ground.beds.get(bed)!.middle)
  const name = ground.beds.get(bed)!.name
  const { from_m, to_m, plants, spacing_m } = planting
  if (from_m !== null && from_m >= lengthM) return `its row in bed ${name} is only ${lengthM.toFixed(1)} m long`
  const place = { row: row?.id ?? null, bed: row ? null : bed }
  if (to_m === null || to_m <= lengthM) return { inBed: bed, told: place }
  const end = Math.floor(lengthM * 100) / 100
  const start = from_m ?? 0
  const fewer =
    plants === null
      ? null
      : Math.min(
          plants,
          spacing_m === null ? Math.floor((plants * (end - start)) / (to_m - start)) : plantsAt(end - start, spacing_m),
        )
  return { inBed: bed, told: { ...place, to_m: end, plants: fewer } }
}

function rowsByBed(ground: Ground): Map<string, GroundRow[]> {
  const found = new Map<string, GroundRow[]>()
  for (const row of ground.rows.values()) found.set(row.bed, [...(found.get(row.bed) ?? []), row])
  for (const [bed, rows] of found) found.set(bed, inOrderAcross(rows, ground.beds.get(bed)!.middle))
  return found
}
