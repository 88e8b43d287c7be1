import type { Tree } from '../model/trees.ts'

/** A tree's canopy and root reach on a day, in metres from the trunk; `assumed` where no growth curve is published. */
export interface Spread {
  readonly canopyM: number
  readonly reachM: number
  readonly assumed: boolean
}

/** Reach of a mature black walnut's roots: 60 ft, the upper end of the usual 50–60 ft (Ohio State; UW–Madison XHT1017). */
export const MATURE_REACH_M = 60 * 0.3048

const YOUNG_HEIGHT_M = 8 * 0.3048
const MATURE_HEIGHT_M = 15
const YEAR_MS = 365.2425 * 86_400_000

/** A tree's spread on a day (`YYYY-MM-DD`): as measured, or grown by its species' curve from the size measured. */
export function spreadOn(
  tree: Pick<Tree, 'species' | 'planted' | 'height_m' | 'canopy_radius_m' | 'measured'>,
  on: string,
): Spread {
  const curve = CURVES.find(({ species }) => species.test(tree.species))?.crownDiameterM
  const measured = tree.canopy_radius_m
  let canopyM = measured ?? (tree.height_m ?? 0) / 4
  let assumed = measured === null
  if (curve && measured !== null && tree.measured !== null) {
    const age = ageOf(curve, 2 * measured)
    canopyM = Math.max(0, measured + (curve(Math.max(0, age + yearsBetween(tree.measured, on))) - curve(age)) / 2)
  } else if (curve && measured === null && tree.planted !== null) {
    canopyM = curve(Math.max(0, yearsBetween(tree.planted, on))) / 2
    assumed = false
  } else if (measured !== null) assumed = tree.measured !== on
  const grown = measured ? canopyM / measured : 1
  const heightM = tree.height_m === null ? 2 * canopyM : tree.height_m * grown
  return { canopyM, reachM: Math.max(canopyM, reachAt(heightM)), assumed }
}

/**
 * Root reach by height: as far as the tree is tall up to 8 ft (root spread about twice the height across, Funt &
 * Martin), the mature reach from 15 m up; the line between the two is our assumption.
 */
export function reachAt(heightM: number): number {
  if (heightM <= YOUNG_HEIGHT_M) return heightM
  if (heightM >= MATURE_HEIGHT_M) return MATURE_REACH_M
  const part = (heightM - YOUNG_HEIGHT_M) / (MATURE_HEIGHT_M - YOUNG_HEIGHT_M)
  return YOUNG_HEIGHT_M + part * (MATURE_REACH_M - YOUNG_HEIGHT_M)
}

type Curve = (ageYears: number) => number

/** Crown diameter in metres by age in years: USDA Forest Service PSW-GTR-253 with its 2020 errata, Lower Midwest. */
export function blackWalnutCrownM(ageYears: number): number {
  const dbhCm = Math.exp(0.18691 + 2.80787 * Math.log(Math.log(ageYears + 1) + 0.04201 / 2))
  const atPeak = Math.min(dbhCm, 0.30997 / (2 * 0.00145))
  return 0.80775 + 0.30997 * atPeak - 0.00145 * atPeak * atPeak
}

const CURVES: readonly { species: RegExp; crownDiameterM: Curve }[] = [
  { species: /\bjuglans\s+nigra\b|\bblack\s+walnut\b/i, crownDiameterM: blackWalnutCrownM },
]

/** The age at which a curve reaches a diameter, by bisection between 0 and 200 years. */
function ageOf(curve: Curve, diameterM: number): number {
  let [low, high] = [0, 200]
  if (diameterM <= curve(low)) return low
  if (diameterM >= curve(high)) return high
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (curve(middle) < diameterM) low = middle
    else high = middle
  }
  return (low + high) / 2
}

function yearsBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / YEAR_MS
}
