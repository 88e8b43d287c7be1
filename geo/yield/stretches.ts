import { clipHalfPlane } from './clipHalfPlane.ts'
import type { Footprint } from './footprints.ts'
import type { LaidBed } from './plantingStrips.ts'
import type { Ring } from './ring.ts'
import { ringsAreaM2, ringsCentroid } from './ring.ts'

/** A length of a bed, cut square to its long axis. */
export type Stretch = {
  /** Place of its bed in the list of beds. */
  readonly bed: number
  readonly areaM2: number
  readonly x: number
  readonly y: number
  readonly rings: readonly Ring[]
  /** Picked of crops that the farm planted more than once, and what was expected of them. */
  readonly kg: number
  readonly expectedKg: number
  /** Metres of row of the plantings that it was expected of, one after another along the same row counted each. */
  readonly rowM: number
  /** What of that was expected by each footprint (place in the report's list) that lies on it. */
  readonly parts: readonly { readonly footprint: number; readonly expectedKg: number }[]
}

/**
 * Cuts each bed into equal stretches of about `stretchM` and gathers on them what was picked and what was expected.
 * A crop that was planted once on the farm is left out: held against itself it is at par wherever it stands.
 */
export function stretches(beds: readonly LaidBed[], footprints: readonly Footprint[], stretchM: number): Stretch[] {
  const kg = beds.map((bed) => new Float64Array(stretchCount(bed, stretchM)))
  const expected = kg.map((list) => new Float64Array(list.length))
  const rows = kg.map((list) => new Float64Array(list.length))
  const parts = kg.map((list) => Array.from(list, (): Stretch['parts'][number][] => []))
  footprints.forEach(({ bed, rings, plantingsOfCrop, kg: mass, expectedKg, rowM }, footprint) => {
    if (plantingsOfCrop < 2) return
    const areas = cutAlong(beds[bed]!, rings, kg[bed]!.length).map(ringsAreaM2)
    const gathered = areas.reduce((sum, area) => sum + area, 0)
    areas.forEach((area, k) => {
      kg[bed]![k]! += (mass * area) / gathered
      const own = (expectedKg * area) / gathered
      expected[bed]![k]! += own
      rows[bed]![k]! += (rowM * area) / gathered
      if (own > 0) parts[bed]![k]!.push({ footprint, expectedKg: own })
    })
  })
  return beds.flatMap((bed, b) =>
    cutAlong(bed, bed.rings, kg[b]!.length).flatMap((rings, k): Stretch[] => {
      const areaM2 = ringsAreaM2(rings)
      if (areaM2 <= 0) return []
      const [x, y] = ringsCentroid(rings)
      const gathered = { kg: kg[b]![k]!, expectedKg: expected[b]![k]!, rowM: rows[b]![k]!, parts: parts[b]![k]! }
      return [{ bed: b, areaM2, x, y, rings, ...gathered }]
    }),
  )
}

function stretchCount(bed: LaidBed, stretchM: number): number {
  return Math.max(1, Math.round(bed.axis.lengthM / stretchM))
}

/** Parts of some ground of a bed in each of `count` equal lengths of the bed's axis. */
function cutAlong({ axis }: LaidBed, rings: readonly Ring[], count: number): (readonly Ring[])[] {
  const parts: (readonly Ring[])[] = []
  let rest = rings
  for (let k = 1; k < count; k += 1) {
    const at = axis.startM + (axis.lengthM * k) / count
    parts.push(clipHalfPlane(rest, { nx: -axis.ux, ny: -axis.uy, c: -at }))
    rest = clipHalfPlane(rest, { nx: axis.ux, ny: axis.uy, c: at })
  }
  parts.push(rest)
  return parts
}
