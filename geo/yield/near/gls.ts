import { cholesky, solveLower, solveUpper } from '../cholesky.ts'

/** Places and weights of what a model is fitted to: coordinates in metres, variances relative to each other. */
export interface Places {
  readonly xs: ArrayLike<number>
  readonly ys: ArrayLike<number>
  readonly variances: ArrayLike<number>
}

/** Correlation (1 − nugget)·exp(−d/range) between two places d apart; a range of 0 is none at all. */
export interface Correlation {
  readonly rangeM: number
  readonly nugget: number
}

export interface GlsFit {
  readonly coefficients: readonly number[]
  readonly errors: readonly number[]
  /** Of the coefficients with each other: σ²(XᵀV⁻¹X)⁻¹. */
  readonly covariance: readonly (readonly number[])[]
  readonly sigma: number
  /** Restricted log-likelihood. */
  readonly logLik: number
  readonly df: number
}

/** What turns values into independent ones: L⁻¹ block by block, with ln|V| over all. */
export interface Whitening {
  readonly blocks: readonly { readonly at: readonly number[]; readonly factor: Float64Array }[]
  readonly logDet: number
}

/**
 * Factors of the covariance of places, block by block; places of different blocks are taken as independent. Null where
 * a block is not positive definite (two records of one place without nugget).
 */
export function whitening(
  { xs, ys, variances }: Places,
  blocks: readonly (readonly number[])[],
  { rangeM, nugget }: Correlation,
): Whitening | null {
  let logDet = 0
  const factors = []
  for (const at of blocks) {
    const n = at.length
    const v = new Float64Array(n * n)
    for (let i = 0; i < n; i += 1) {
      const a = at[i]!
      v[i * n + i] = variances[a]!
      for (let j = 0; j < i; j += 1) {
        const b = at[j]!
        const apart = Math.hypot(xs[a]! - xs[b]!, ys[a]! - ys[b]!)
        const r = rangeM > 0 ? (1 - nugget) * Math.exp(-apart / rangeM) : 0
        v[i * n + j] = r * Math.sqrt(variances[a]! * variances[b]!)
      }
    }
    if (!cholesky(v, n)) return null
    for (let i = 0; i < n; i += 1) logDet += 2 * Math.log(v[i * n + i]!)
    factors.push({ at, factor: v })
  }
  return { blocks: factors, logDet }
}

/** Values made independent. */
export function whiten({ blocks }: Whitening, values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(values.length)
  for (const { at, factor } of blocks) {
    const part = solveLower(
      factor,
      at.length,
      Float64Array.from(at, (k) => values[k]!),
    )
    at.forEach((k, i) => {
      out[k] = part[i]!
    })
  }
  return out
}

/**
 * Generalised least squares of whitened values on whitened columns, with the restricted likelihood that `nlme::gls`
 * tells: ((N − p)(ln(N − p) − ln 2π − 1 − ln RSS) − ln|V| − ln|XᵀV⁻¹X|)/2 (Pinheiro & Bates 2000, Mixed-Effects Models
 * in S and S-PLUS, 5.1). Null where the columns hang on each other.
 */
export function fitWhitened(y: Float64Array, columns: readonly Float64Array[], logDet: number): GlsFit | null {
  const p = columns.length
  const n = y.length
  const xtx = new Float64Array(p * p)
  const xty = new Float64Array(p)
  columns.forEach((a, i) => {
    columns.forEach((b, j) => {
      if (j <= i) xtx[i * p + j] = dot(a, b)
    })
    xty[i] = dot(a, y)
  })
  const scale = Math.max(...Array.from({ length: p }, (_, i) => xtx[i * p + i]!))
  if (!(scale > 0) || !cholesky(xtx, p)) return null
  const coefficients = solveUpper(xtx, p, solveLower(xtx, p, xty.slice()))
  let rss = 0
  for (let k = 0; k < n; k += 1) {
    let left = y[k]!
    for (let i = 0; i < p; i += 1) left -= columns[i]![k]! * coefficients[i]!
    rss += left * left
  }
  const df = n - p
  const sigma2 = rss / df
  const halves = Array.from({ length: p }, (_, i) => {
    const unit = new Float64Array(p)
    unit[i] = 1
    return solveLower(xtx, p, unit)
  })
  const covariance = halves.map((a) => halves.map((b) => sigma2 * dot(a, b)))
  const errors = covariance.map((row, i) => Math.sqrt(row[i]!))
  let logXtx = 0
  for (let i = 0; i < p; i += 1) logXtx += 2 * Math.log(xtx[i * p + i]!)
  const logLik = (df * (Math.log(df) - Math.log(2 * Math.PI) - 1 - Math.log(rss)) - logDet - logXtx) / 2
  return { coefficients: [...coefficients], errors, covariance, sigma: Math.sqrt(sigma2), logLik, df }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let k = 0; k < a.length; k += 1) sum += a[k]! * b[k]!
  return sum
}

/** Places in blocks of at most `most`, halved across their longer side until they are small enough. */
export function blocksOf(xs: ArrayLike<number>, ys: ArrayLike<number>, most: number): number[][] {
  const halve = (at: number[]): number[][] => {
    if (at.length <= most) return [at]
    const spread = (values: ArrayLike<number>): number => {
      const own = at.map((k) => values[k]!)
      return own.reduce((m, v) => Math.max(m, v), -Infinity) - own.reduce((m, v) => Math.min(m, v), Infinity)
    }
    const along = spread(xs) >= spread(ys) ? xs : ys
    const sorted = [...at].sort((a, b) => along[a]! - along[b]! || a - b)
    const half = sorted.length >> 1
    return [...halve(sorted.slice(0, half)), ...halve(sorted.slice(half))]
  }
  return halve(Array.from({ length: xs.length }, (_, k) => k))
}
