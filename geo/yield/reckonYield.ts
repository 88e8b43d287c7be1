import type { MultiPolygon, Polygon } from 'geojson'
import type { Database } from '../store/database.ts'
import { cropsOf, type OfCrops } from './ofCrops.ts'
import { readYieldInputs } from './readYieldInput.ts'
import { seasonsReport, type YieldReport, type YieldSettings } from './yieldReport.ts'
import { type ZoneSurroundings, zoneSurroundings } from './zoneSurroundings.ts'

/**
 * What is asked of yield; settings that are left out have their usual value. `seasons`: several taken together, else the
 * one season alone; `of`: one crop's or one family's alone, else all.
 */
export type YieldAsked = {
  readonly season: number
  readonly seasons?: readonly number[]
  readonly of?: OfCrops | null
} & Partial<YieldSettings>

/** Yield in the farm's plane, and its zones on the ground, in the same order. */
export type ReckonedYield = {
  readonly report: YieldReport
  readonly of: OfCrops | null
  readonly outlines: readonly (Polygon | MultiPolygon)[]
  readonly surroundings: readonly ZoneSurroundings[]
}

export const USUAL: YieldSettings = { cellM: 1, smoothM: 1.5, stretchM: 4, bandM: 6, alpha: 0.05 }

/** Reckons yield from the store. Throws a RangeError for a cell, crop or family that can't be used. */
export async function reckonYield(
  db: Database,
  { season, seasons, of = null, ...asked }: YieldAsked,
): Promise<ReckonedYield> {
  const inputs = await readYieldInputs(db, seasonsAsked(season, seasons))
  const crops = of === null ? null : await cropsOf(db, of)
  const report = seasonsReport(inputs, { ...USUAL, ...asked }, crops)
  const span = { from: inputs[0]!.span.from, to: inputs.at(-1)!.span.to }
  const surroundings = await zoneSurroundings(db, report, span)
  return { report, of, outlines: surroundings.map(({ outline }) => outline), surroundings }
}

/** Seasons to be taken together, each once, oldest first. */
export function seasonsAsked(season: number, seasons: readonly number[] = []): number[] {
  return seasons.length === 0 ? [season] : [...new Set(seasons)].sort((a, b) => a - b)
}
