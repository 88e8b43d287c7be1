import type { Database } from '../../store/database.ts'
import type { Pace } from '../../store/pace.ts'
import { cropsOf } from '../ofCrops.ts'
import { readYieldInputs } from '../readYieldInput.ts'
import { seasonsAsked, USUAL, type YieldAsked } from '../reckonYield.ts'
import { seasonsReport } from '../yieldReport.ts'
import { FEWEST_POINTS, type PointMethod, type PointSurface, pointSurface } from './pointSurface.ts'
import type { ValuedPoint } from './valuedPoint.ts'

/** A surface of the yield index through the middles of stretches of bed, at the cells of the surface asked alike. */
export interface ReckonedPoints {
  /** `values` are indexes at the surface's cells, in their order. Null where there is too little to tell. */
  readonly surface: PointSurface | null
  readonly tooLittle: string | null
}

/** The index in the middles of stretches, and the places where it is to be told, in metres of the farm's plane. */
export interface PointsTold {
  readonly points: readonly ValuedPoint[]
  readonly places: readonly { readonly x: number; readonly y: number }[]
}

/** What a surface through places is reckoned from; all that needs the farm. */
export async function readPoints(
  db: Database,
  { season, seasons: named, of = null, ...asked }: YieldAsked,
): Promise<PointsTold> {
  const inputs = await readYieldInputs(db, seasonsAsked(season, named))
  const crops = of === null ? null : await cropsOf(db, of)
  const report = seasonsReport(inputs, { ...USUAL, ...asked, smoothM: 0 }, crops)
  const points = report.stretches.flatMap(({ x, y, kg, expectedKg }) =>
    expectedKg > 0 ? [{ x, y, value: kg / expectedKg }] : [],
  )
  return { points, places: report.pieces.pieces }
}

/** Reckons the index between the middles of stretches, as an alternative to mass spread evenly over strips. */
export async function reckonPoints(
  { points, places }: PointsTold,
  method: PointMethod,
  pace?: Pace,
): Promise<ReckonedPoints> {
  const surface = await pointSurface(points, places, method, pace)
  if (surface) return { surface, tooLittle: null }
  const few = `There are ${points.length} stretches of bed with an index; it takes ${FEWEST_POINTS} for a surface through them.`
  return {
    surface: null,
    tooLittle: points.length < FEWEST_POINTS ? few : 'The index does not vary from place to place.',
  }
}
