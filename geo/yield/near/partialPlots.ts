import { quantileT } from '../studentT.ts'
import { type Factor, sides } from './factor.ts'
import { fitWhitened, type GlsFit, type Whitening, whiten } from './gls.ts'

/**
 * How the index goes with one factor once the others are held at their mean. Each point is a plot: its residual plus
 * coefficient × value, at the level that the model has for the others' means (partial residuals: Larsen & McCleary 1972,
 * Technometrics 14:781–790). The line is the model's mean with its 95 % interval.
 */
export interface PartialPlot {
  readonly id: string
  /** Factors of the model beside it; none where it is looked at alone. */
  readonly heldWith: readonly string[]
  /** Index at 1 less index at 0 by this model. */
  readonly effect: number
  readonly low: number
  readonly high: number
  readonly points: readonly { readonly value: number; readonly index: number }[]
  readonly line: readonly {
    readonly value: number
    readonly index: number
    readonly low: number
    readonly high: number
  }[]
}

export interface PartialPlots {
  readonly partial: readonly PartialPlot[]
  /** What is looked at together, or why one thing is looked at at a time, in plain words. */
  readonly partialMethod: string
}

/** A factor is looked at with others where so many plots are with it and without it, and there are so many for each. */
const PLOTS_EACH = 10
/** A factor is left out where those before it tell this share of how it lies on the ground (a variance inflation of 5). */
const TOLD_BY_OTHERS = 0.8
const ALPHA = 0.05
const LINE_STEPS = 12

/**
 * Partial plots of factors: from one model of all that have ten plots with them and ten without, where there are ten for
 * each of them (common practice); of the others, or of all where that is not so, from a model for each. Of factors that
 * lie alike the first in the list is looked at with the others. What was seen is never held at its mean: it may itself come
 * of another factor, whose part it would then take.
 */
export function partialPlots(index: readonly number[], factors: readonly Factor[], white: Whitening): PartialPlots {
  const kept = keptTogether(factors, index.length)
  const enough = kept.length > 1 && index.length >= PLOTS_EACH * kept.length
  const joint = enough ? fitModel(index, kept, white) : null
  const partial = factors.flatMap((factor) => {
    const model = joint && kept.includes(factor) ? joint : fitModel(index, [factor], white)
    return model ? [partialOf(model, factor, index)] : []
  })
  return { partial, partialMethod: methodOf(factors, joint ? kept : []) }
}

interface Model {
  readonly factors: readonly Factor[]
  /** Level, then a level for each set of plots that some factor can be told of, then the factors. */
  readonly columns: readonly (readonly number[])[]
  readonly amongs: readonly (readonly boolean[])[]
  readonly fit: GlsFit
}

function fitModel(index: readonly number[], factors: readonly Factor[], white: Whitening): Model | null {
  const { columns, amongs } = columnsOf(factors, index.length)
  const fit = fitWhitened(
    whiten(white, index),
    columns.map((column) => whiten(white, column)),
    white.logDet,
  )
  return fit && { factors, columns, amongs, fit }
}

function columnsOf(factors: readonly Factor[], n: number): Pick<Model, 'columns' | 'amongs'> {
  const amongs: (readonly boolean[])[] = []
  for (const { among } of factors)
    if (among?.includes(false) && !amongs.some((other) => sameList(other, among))) amongs.push(among)
  return {
    amongs,
    columns: [new Array<number>(n).fill(1), ...amongs.map((among) => among.map(Number)), ...factors.map(columnOf)],
  }
}

const sameList = (a: readonly boolean[], b: readonly boolean[]): boolean => a.every((one, k) => one === b[k])

/** A factor's values, 0 where it can't be told. */
export const columnOf = ({ values, among }: Factor): readonly number[] =>
  among ? values.map((v, k) => (among[k] ? v : 0)) : values

function partialOf({ factors, columns, amongs, fit }: Model, factor: Factor, index: readonly number[]): PartialPlot {
  const { coefficients, covariance, errors, df } = fit
  const own = columns.length - factors.length + factors.indexOf(factor)
  const at = index.flatMap((_, k) => (factor.among?.[k] === false ? [] : [k]))
  const ownAmong = amongs.findIndex((among) => factor.among !== null && sameList(among, factor.among))
  const means = columns.map((column, j) =>
    j === 0 || j === 1 + ownAmong ? 1 : at.reduce((sum, k) => sum + column[k]! / at.length, 0),
  )
  const atValue = (value: number): number[] => means.map((mean, j) => (j === own ? value : mean))
  const fitted = (x: readonly number[]): number => x.reduce((sum, v, j) => sum + v * coefficients[j]!, 0)
  const errorAt = (x: readonly number[]): number =>
    Math.sqrt(x.reduce((sum, a, i) => sum + x.reduce((of, b, j) => of + a * b * covariance[i]![j]!, 0), 0))
  const t = quantileT(ALPHA, df)
  const values = at.map((k) => columns[own]![k]!)
  const [least, most] = [Math.min(...values), Math.max(...values)]
  return {
    id: factor.id,
    heldWith: factors.flatMap(({ id }) => (id === factor.id ? [] : [id])),
    effect: coefficients[own]!,
    low: coefficients[own]! - t * errors[own]!,
    high: coefficients[own]! + t * errors[own]!,
    points: at.map((k) => {
      const residual = index[k]! - fitted(columns.map((column) => column[k]!))
      const value = columns[own]![k]!
      return { value, index: fitted(atValue(value)) + residual }
    }),
    line: Array.from({ length: LINE_STEPS + 1 }, (_, s) => {
      const value = least + ((most - least) * s) / LINE_STEPS
      const x = atValue(value)
      const [middle, half] = [fitted(x), t * errorAt(x)]
      return { value, index: middle, low: middle - half, high: middle + half }
    }),
  }
}

/** The factors with plots enough on either side that those before them don't tell for the most part; no signs. */
function keptTogether(factors: readonly Factor[], n: number): Factor[] {
  const kept: Factor[] = []
  for (const factor of factors) {
    const { with: near, without } = sides(factor)
    if (factor.kind === 'seen' || near < PLOTS_EACH || without < PLOTS_EACH) continue
    const { columns } = columnsOf([...kept, factor], n)
    const before = columns.slice(0, -1).map((column) => Float64Array.from(column))
    const own = Float64Array.from(columnOf(factor))
    const mean = own.reduce((sum, v) => sum + v / n, 0)
    const all = own.reduce((sum, v) => sum + (v - mean) ** 2, 0)
    const fit = n > before.length ? fitWhitened(own, before, 0) : null
    const left = fit ? fit.sigma ** 2 * fit.df : 0
    if (left > (1 - TOLD_BY_OTHERS) * all) kept.push(factor)
  }
  return kept
}

function methodOf(factors: readonly Factor[], together: readonly Factor[]): string {
  if (together.length === 0)
    return `In the drawings one thing is looked at at a time: it takes two things or more with ${PLOTS_EACH} plots with each and ${PLOTS_EACH} without, that don’t lie alike, and ${PLOTS_EACH} plots for each, to look at them together.`
  const names = (list: readonly Factor[]): string => list.map(({ id }) => id).join(', ')
  const alone = factors.filter((factor) => !together.includes(factor))
  const rest =
    alone.length === 0
      ? ''
      : ` Looked at alone, since they are signs seen on the ground, or have fewer than ${PLOTS_EACH} plots with or without them, or lie as those do: ${names(alone)}.`
  return `In the drawings these are looked at together, each with the others held at their mean: ${names(together)}.${rest}`
}
