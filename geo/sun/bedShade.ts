import type { Polygon } from 'geojson'
import type { LonLat, Metres } from '../plane/lonLat.ts'
import { pointInRings } from '../plane/pointInRings.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import type { Caster } from './caster.ts'
import { readCasters } from './readCasters.ts'
import { shadeHours, sunHours } from './shadeHours.ts'

/** Hours of direct sun that a bed loses in a span of days, the mean over its ground. */
export interface BedShade {
  readonly bed: string
  readonly lostHours: number
  /** Of these, what each sort takes by itself; hours in which two stand before the sun count for both. */
  readonly bySupports: number
  readonly byTrees: number
  readonly byStructures: number
}

export interface ShadeOfSpan {
  /** Hours in which the sun stands 5° or more above the horizon. */
  readonly sunHours: number
  readonly beds: readonly BedShade[]
}

export interface ShadeAsked {
  readonly from: string
  readonly to: string
  /** So many beds after so many, in the order of the records: a large farm is reckoned in slices. */
  readonly skip: number
  readonly take: number
}

/** The sun is looked at every so many days, and every so many minutes of them. */
const EVERY_DAYS = 5
const EVERY_MINUTES = 15
/** Spots of a bed stand so far apart, but no bed has more than so many. */
const SPOTS_M = 1
const MOST_SPOTS = 40

/**
 * Reckons the sun lost by beds over a short span (a month or so): what throws shadows is taken as on its middle day, and
 * beds as they stand then. Flat ground, no clouds; an interior grid of spots stands for each bed.
 */
export async function bedShade(
  db: Database,
  origin: LonLat,
  { from, to, skip, take }: ShadeAsked,
): Promise<ShadeOfSpan> {
  const middle = new Date((Date.parse(from) + Date.parse(to)) / 2).toISOString().slice(0, 10)
  const casters = await readCasters(db, middle)
  const sun = sunHours(origin, { from, to, everyDays: EVERY_DAYS, everyMinutes: EVERY_MINUTES })
  const beds = await db.rows<{ id: string; shape: string }>(
    `select id, encode(st_asewkb(plan), 'hex') as shape from beds
     where standing(made, retired, $1::date) order by ord offset $2 limit $3`,
    [middle, skip, take],
  )
  const sorts = [casters.supports, casters.trees, casters.structures] as const
  const all = sorts.flat()
  return {
    sunHours: sun.reduce((sum, { hours }) => sum + hours, 0),
    beds: beds.map(({ id, shape }) => {
      const spots = spotsIn((fromEwkb(shape) as Polygon).coordinates as unknown as Metres[][])
      const mean = (of: readonly Caster[]) => {
        if (of.length === 0) return 0
        const { lostHours } = shadeHours(spots, of, sun)
        return lostHours.reduce((sum, hours) => sum + hours, 0) / spots.length
      }
      const [bySupports, byTrees, byStructures] = sorts.map(mean) as [number, number, number]
      const shading = [bySupports, byTrees, byStructures].filter((hours) => hours > 0)
      return {
        bed: id,
        // With one sort alone there is nothing that could stand before the sun twice.
        lostHours: shading.length > 1 ? mean(all) : (shading[0] ?? 0),
        bySupports,
        byTrees,
        byStructures,
      }
    }),
  }
}

/** A grid of spots inside an area, from its lower left, as wide as keeps them few; its middle where none falls inside. */
export function spotsIn(rings: readonly (readonly Metres[])[]): Metres[] {
  const [xs, ys] = [rings[0]!.map(([x]) => x), rings[0]!.map(([, y]) => y)]
  const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  let stepM = SPOTS_M
  for (;;) {
    const spots: Metres[] = []
    const [columns, lines] = [Math.ceil((east - west) / stepM), Math.ceil((north - south) / stepM)]
    for (let i = 0; i < columns; i++)
      for (let j = 0; j < lines; j++) {
        const spot: Metres = [
          west + ((i + 0.5) * (east - west)) / columns,
          south + ((j + 0.5) * (north - south)) / lines,
        ]
        if (pointInRings(spot, rings)) spots.push(spot)
      }
    if (spots.length === 0) {
      if (stepM > SPOTS_M / 8) stepM /= 2
      else return [[(west + east) / 2, (south + north) / 2]]
    } else if (spots.length > MOST_SPOTS && stepM >= SPOTS_M) stepM *= Math.sqrt(spots.length / MOST_SPOTS) + 0.01
    else return spots
  }
}
