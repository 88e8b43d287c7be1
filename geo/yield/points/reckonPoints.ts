import type { Database } from '../../store/database.ts'
import { cropsOf } from '../ofCrops.ts'
import { readYieldInputs } from '../readYieldInput.ts'
import { seasonsAsked, USUAL, type YieldAsked } from '../reckonYield.ts'
import { seasonsReport } from '../yieldReport.ts'
import { FEWEST_POINTS, type PointMethod, type PointSurface, pointSurface } from './pointSurface.ts'

/** A surface of the yield index through the middles of stretches of bed, at the cells of the surface asked alike. */
export interface ReckonedPoints {
  /** `values` are indexes at the surface's cells, in their order. Null where there is too little to tell. */
  readonly surface: PointSurface | null
  readonly tooLittle: string | null
}

/** Reckons the index between the middles of stretches, as an alternative to mass spread evenly over strips. */
export async function reckonPoints(
  db: Database,
  { season, seasons: named, of = null, method, ...asked }: YieldAsked & { readonly method: PointMethod },
): Promise<ReckonedPoints> {
  const inputs = await readYieldInputs(db, seasonsAsked(season, named))
  const crops = of === null ? null : await cropsOf(db, of)
  const report = seasonsReport(inputs, { ...USUAL, ...asked, smoothM: 0 }, crops)
  const points = report.stretches.flatMap(({ x, y, kg, expectedKg }) =>
    expectedKg > 0 ? [{ x, y, value: kg / expectedKg }] : [],
  )
  const surface = pointSurface(points, report.pieces.pieces, method)
  if (surface) return { surface, tooLittle: null }
  const few = `There are ${points.length} stretches of bed with an index; it takes ${FEWEST_POINTS} for a surface through them.`
  return {
    surface: null,
    tooLittle: points.length < FEWEST_POINTS ? few : 'The index does not vary from place to place.',
  }
}
