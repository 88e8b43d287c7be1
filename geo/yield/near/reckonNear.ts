import type { LonLat } from '../../plane/lonLat.ts'
import { planeAbout } from '../../plane/plane.ts'
import type { Database } from '../../store/database.ts'
import { readOrigin } from '../../store/origin.ts'
import { type SunHour, sunHours } from '../../sun/shadeHours.ts'
import { cropsOf, type OfCrops } from '../ofCrops.ts'
import { plantingFacts } from '../plots/plantingFacts.ts'
import { type Plot, plotsOf } from '../plots/plots.ts'
import { readYieldInputs } from '../readYieldInput.ts'
import { seasonsAsked, USUAL } from '../reckonYield.ts'
import type { YieldInput } from '../yieldInput.ts'
import { seasonsFigures } from '../yieldReport.ts'
import { type NearEffects, nearEffects } from './effects.ts'
import type { Factor } from './factor.ts'
import { factorsOf } from './factors.ts'
import { type FieldQuestion, zoneQuestions } from './questions.ts'
import { type Around, readAround } from './readAround.ts'
import { type ZoneNear, zonesNear } from './zoneNear.ts'

/** What yield goes with on the whole farm, and for each zone what to look at in the field. */
export interface ReckonedNear extends NearEffects {
  readonly seasons: readonly number[]
  /** What lies near each zone, in the order of the surface's. */
  readonly zones: readonly ZoneNear[]
  readonly questions: readonly (Omit<FieldQuestion, 'at'> & { readonly at: LonLat })[]
}

/** The sun is looked at every hour of every third week. */
const SUN_STEP = { everyDays: 21, everyMinutes: 60 } as const

/** Reckons what lies near plots of some seasons and how their index goes with it, and the questions for each zone. */
export async function reckonNear(
  db: Database,
  { season, seasons: named, of }: { season: number; seasons: readonly number[]; of: OfCrops | null },
): Promise<ReckonedNear> {
  const seasons = seasonsAsked(season, named)
  const inputs = await readYieldInputs(db, seasons)
  const figures = seasonsFigures(inputs, USUAL, of === null ? null : await cropsOf(db, of))
  const origin = await readOrigin(db)
  const plots = plotsOf(figures)
  const arounds: Around[] = []
  for (const { span } of inputs) arounds.push(await readAround(db, span))
  const factors = origin === null ? [] : await readFactors(db, inputs, arounds, plots, origin)
  const told = nearEffects(
    {
      index: plots.map(({ kg, expectedKg }) => kg / expectedKg),
      areasM2: plots.map(({ areaM2 }) => areaM2),
      xs: plots.map(({ x }) => x),
      ys: plots.map(({ y }) => y),
    },
    factors,
  )
  const asked = zoneQuestions(figures.zones, figures.stretches, plots, factors, arounds.at(-1)!.seen)
  const plane = planeAbout(origin ?? [0, 0])
  const zones = zonesNear(figures.zones, figures.stretches, plots, factors)
  return { ...told, seasons, zones, questions: asked.map((one) => ({ ...one, at: plane.toLonLat(one.at) })) }
}

async function readFactors(
  db: Database,
  inputs: readonly YieldInput[],
  arounds: readonly Around[],
  plots: readonly Plot[],
  origin: LonLat,
): Promise<Factor[]> {
  const facts = await plantingFacts(db, [...new Set(plots.flatMap(({ plantings }) => plantings))])
  const merged = new Map<string, Factor>()
  for (const [i, { season, span, plantings, beds }] of inputs.entries()) {
    const at = plots.flatMap((plot, k) => (plot.season === season ? [k] : []))
    const setOut = new Map(plantings.map((planting) => [planting.id, planting.setOut]))
    const ground = at.map((k) => {
      const plot = plots[k]!
      const first = plot.plantings[0]
      const factsOf = plot.plantings.length === 1 ? (facts.get(first!) ?? null) : null
      return { plot, bed: beds[plot.bed]!.id, setOut: (first && setOut.get(first)) ?? span.from, facts: factsOf }
    })
    for (const factor of factorsOf(ground, arounds[i]!, sunOf(origin, span, plantings))) {
      const before = merged.get(factor.id)
      const values = before ? [...before.values] : plots.map(() => 0)
      const among = before?.among ? [...before.among] : plots.map(() => factor.among === null)
      at.forEach((k, n) => {
        values[k] = factor.values[n]!
        among[k] = factor.among?.[n] ?? true
      })
      merged.set(factor.id, { ...factor, values, among: factor.among === null ? null : among })
    }
  }
  return [...merged.values()]
}

/** The sun while anything stood: from the first setting out to the last clearing within the season. */
function sunOf(origin: LonLat, span: YieldInput['span'], plantings: YieldInput['plantings']): SunHour[] {
  const starts = plantings.map(({ setOut }) => [setOut, span.from].sort()[1]!).sort()
  const ends = plantings.map(({ cleared }) => [cleared ?? span.to, span.to].sort()[0]!).sort()
  return sunHours(origin, { from: starts[0] ?? span.from, to: ends.at(-1) ?? span.to, ...SUN_STEP })
}
