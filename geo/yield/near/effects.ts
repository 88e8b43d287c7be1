import { benjaminiHochberg } from '../benjaminiHochberg.ts'
import { quantileT, twoSidedT } from '../studentT.ts'
import { type Factor, sides } from './factor.ts'
import {
  blocksOf,
  type Correlation,
  fitWhitened,
  type GlsFit,
  type Places,
  type Whitening,
  whiten,
  whitening,
} from './gls.ts'
import { columnOf, type PartialPlots, partialPlots } from './partialPlots.ts'

/** How yield goes with one factor. */
export interface NearEffect extends Omit<Factor, 'values' | 'among'> {
  /** Plots nearer to 1 than to 0, and the others. */
  readonly with: number
  readonly without: number
  /** Index at 1 less index at 0; null where there is too little to tell. */
  readonly effect: number | null
  readonly low: number | null
  readonly high: number | null
  readonly p: number | null
  readonly q: number | null
  readonly tells: 'goes with less' | 'goes with more' | 'no link that is sure' | 'too little to tell'
  /** Other factors that lie so alike on the ground that they can't be told apart (correlation beyond 0.7). */
  readonly alike: readonly string[]
}

export interface NearEffects extends PartialPlots {
  readonly plots: number
  /** The surest first; too little to tell last. */
  readonly effects: readonly NearEffect[]
  readonly tooLittle: string | null
  /** How alike the errors of neighbouring plots are taken to be; null where nothing was told. */
  readonly correlation: Correlation | null
  /** The model and why, in plain words. */
  readonly method: string
}

/** Fewer plots than this tell nothing of what goes with what. */
const FEWEST_PLOTS = 20
/** Fewer plots than this with a factor, or without it, tell nothing of it. */
const FEWEST_EITHER = 5
/** Plots in a block of the model; a farm with more is cut into blocks, each fitted as if apart from the others. */
const MOST_IN_BLOCK = 200
const ALIKE = 0.7
const ALPHA = 0.05

const NUGGETS = [0.05, 0.25, 0.5, 0.75]
const GRID = [3, 6, 12, 25, 50].flatMap((rangeM) => NUGGETS.map((nugget) => ({ rangeM, nugget })))
const INDEPENDENT: Correlation = { rangeM: 0, nugget: 1 }

const METHOD =
  'Each thing is held against the yield index of all plots by a linear model whose errors are more alike the nearer plots lie (generalised least squares, exponential correlation with a nugget, restricted likelihood: Pinheiro & Bates 2000, ch. 5), since neighbouring plots share their soil and would else be counted as more proof than they are. Small plots count less (variance by one over the root of the area: Fairfield Smith 1938). How alike is found without any of the things, so that each must tell more than the ground’s own pattern. One thing is looked at at a time; the false discovery rate over all of them is held at 5 % (Benjamini & Hochberg 1995). What goes together is not thereby cause and effect.'

/**
 * How the index of plots goes with each factor, one at a time. Range and nugget are those of the greatest restricted
 * likelihood without any factor, on a grid of 3–50 m and 0.05–0.75, or none: found with the factor they called links
 * sure on 8 % of fields where nothing was planted but neighbours were alike, found without on 5 %. The interval is t
 * with N − p degrees of freedom. Farms with more than 200 plots are cut into blocks that are taken as independent (composite likelihood:
 * Varin, Reid & Firth 2011, Statistica Sinica 21:5–42).
 */
export function nearEffects(
  plots: { readonly index: readonly number[]; readonly areasM2: readonly number[] } & Omit<Places, 'variances'>,
  factors: readonly Factor[],
): NearEffects {
  const n = plots.index.length
  const counted = factors.map((factor) => ({ factor, ...sides(factor) }))
  const told = counted.filter((one) => n >= FEWEST_PLOTS && one.with >= FEWEST_EITHER && one.without >= FEWEST_EITHER)
  const asked = told.map(({ factor }) => factor)
  const found = asked.length > 0 ? likeliest(plots) : null
  const fits = found ? fitEach(plots.index, asked, found.white) : []
  const tested = fits.flatMap((fit, k) => {
    if (!fit) return []
    const at = fit.coefficients.length - 1
    const [effect, error] = [fit.coefficients[at]!, fit.errors[at]!]
    return [{ id: asked[k]!.id, effect, error, df: fit.df, p: pOf(effect, error, fit.df) }]
  })
  const qs = benjaminiHochberg(tested.map(({ p }) => p))
  const byId = new Map(tested.map((one, k) => [one.id, { ...one, q: qs[k]! }]))
  const effects = counted.map(({ factor, with: near, without }): NearEffect => {
    const { values: _, among: __, ...named } = factor
    const told = byId.get(factor.id)
    const side = { ...named, with: near, without, alike: alikeTo(factor, factors) }
    if (!told)
      return {
        ...side,
        effect: null,
        low: null,
        high: null,
        p: null,
        q: null,
        tells: 'too little to tell',
      }
    const half = quantileT(ALPHA, told.df) * told.error
    const { effect, p, q } = told
    const sure = q <= ALPHA ? (effect < 0 ? 'goes with less' : 'goes with more') : 'no link that is sure'
    return { ...side, effect, low: effect - half, high: effect + half, p, q, tells: sure }
  })
  return {
    plots: n,
    effects: effects.sort((a, b) => (a.p ?? 2) - (b.p ?? 2)),
    tooLittle:
      n >= FEWEST_PLOTS
        ? null
        : `There are ${n} plots with a yield index; it takes ${FEWEST_PLOTS} to tell what goes with what.`,
    correlation: found?.correlation ?? null,
    method: METHOD,
    ...(found ? partialPlots(plots.index, asked, found.white) : { partial: [], partialMethod: '' }),
  }
}

const pOf = (effect: number, error: number, df: number): number => (error > 0 ? twoSidedT(effect / error, df) : 1)

/** The errors' correlation that is likeliest without any factor, and what makes values independent by it. */
function likeliest({ index, areasM2, xs, ys }: Parameters<typeof nearEffects>[0]): {
  correlation: Correlation
  white: Whitening
} {
  const mean = areasM2.reduce((sum, area) => sum + area / areasM2.length, 0)
  const places = { xs, ys, variances: areasM2.map((area) => (area / mean) ** -0.5) }
  const blocks = blocksOf(xs, ys, MOST_IN_BLOCK)
  const ones = index.map(() => 1)
  let [best, bestLogLik] = [INDEPENDENT, Number.NEGATIVE_INFINITY]
  for (const correlation of [INDEPENDENT, ...GRID]) {
    const white = whitening(places, blocks, correlation)
    const alone = white && fitWhitened(whiten(white, index), [whiten(white, ones)], white.logDet)
    if (alone && alone.logLik > bestLogLik) [best, bestLogLik] = [correlation, alone.logLik]
  }
  return { correlation: best, white: whitening(places, blocks, best)! }
}

/** Each factor's fit by itself. */
function fitEach(index: readonly number[], factors: readonly Factor[], white: Whitening): (GlsFit | null)[] {
  const [y, level] = [
    whiten(white, index),
    whiten(
      white,
      index.map(() => 1),
    ),
  ]
  return factors.map((factor) => {
    const columns = [level]
    if (factor.among?.includes(false)) columns.push(whiten(white, factor.among.map(Number)))
    columns.push(whiten(white, columnOf(factor)))
    return fitWhitened(y, columns, white.logDet)
  })
}

function alikeTo(factor: Factor, all: readonly Factor[]): string[] {
  return all.flatMap((other) =>
    other.id !== factor.id && Math.abs(correlationOf(factor.values, other.values)) > ALIKE ? [other.id] : [],
  )
}

function correlationOf(a: readonly number[], b: readonly number[]): number {
  const n = a.length
  const meanOf = (list: readonly number[]): number => list.reduce((sum, v) => sum + v / n, 0)
  const [ma, mb] = [meanOf(a), meanOf(b)]
  let [ab, aa, bb] = [0, 0, 0]
  for (let k = 0; k < n; k += 1) {
    ab += (a[k]! - ma) * (b[k]! - mb)
    aa += (a[k]! - ma) ** 2
    bb += (b[k]! - mb) ** 2
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0
}
