import type { MultiPolygon, Polygon } from 'geojson'
import type { Database } from '../store/database.ts'
import { readYieldInput } from './readYieldInput.ts'
import { type YieldReport, type YieldSettings, yieldReport } from './yieldReport.ts'
import { type ZoneSurroundings, zoneSurroundings } from './zoneSurroundings.ts'

/** What is asked of a season's yield; what is left out has the usual value. */
export type YieldAsked = { readonly season: number } & Partial<YieldSettings>

/** A season's yield in the farm's plane, and its zones on the ground, in the same order. */
export type ReckonedYield = {
  readonly report: YieldReport
  readonly outlines: readonly (Polygon | MultiPolygon)[]
  readonly surroundings: readonly ZoneSurroundings[]
}

const USUAL: YieldSettings = { cellM: 1, smoothM: 1.5, stretchM: 4, bandM: 6, alpha: 0.05 }

/** Reckons a season's yield from the store. Throws a RangeError for a cell that can't be used. */
export async function reckonYield(db: Database, { season, ...asked }: YieldAsked): Promise<ReckonedYield> {
  const input = await readYieldInput(db, season)
  const report = yieldReport(input, { ...USUAL, ...asked })
  const surroundings = await zoneSurroundings(db, report, input.span)
  return { report, outlines: surroundings.map(({ outline }) => outline), surroundings }
}
