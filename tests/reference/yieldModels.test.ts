import { beforeAll, describe, expect, it } from 'vitest'
import { type Correlation, fitWhitened, type GlsFit, whiten, whitening } from '../../geo/yield/near/gls.ts'
import { type RTable, readRTable, rWithData } from './rData.ts'

/**
 * Generalised least squares against R 4.2.2, nlme 3.1-162 (X), correlation and nugget held fixed:
 * gls(…, correlation = corExp(c(range, nugget), form = ~ x + y, nugget = TRUE, fixed = TRUE)), its summary's tTable,
 * sigma and logLik (restricted).
 */
const hasR = rWithData()
if (!hasR)
  console.info(
    'Wheat2, meuse and columbus not checked: they need R with nlme and spData (Debian: r-cran-nlme, r-cran-spdata)',
  )

const near = (found: number | undefined, wanted: number, digits: number): void => {
  expect(Math.abs(found! / wanted - 1), `${found} for ${wanted}`).toBeLessThan(10 ** -digits)
}

type Places = { xs: readonly number[]; ys: readonly number[]; variances?: readonly number[] }

function gls(
  { xs, ys, variances = xs.map(() => 1) }: Places,
  y: readonly number[],
  columns: readonly (readonly number[])[],
  correlation: Correlation,
): GlsFit {
  const all = [xs.map((_, k) => k)]
  const white = whitening({ xs, ys, variances }, all, correlation)!
  const xsWhite = [xs.map(() => 1), ...columns].map((column) => whiten(white, column))
  return fitWhitened(whiten(white, y), xsWhite, white.logDet)!
}

describe.skipIf(!hasR)('gls on Wheat2 of nlme, yield ~ latitude + longitude', () => {
  let table: RTable
  beforeAll(() => {
    table = readRTable('as.data.frame(nlme::Wheat2)', ['longitude', 'latitude', 'yield'], 'd$variety')
  })
  const fitted = (variances?: readonly number[]): GlsFit => {
    const { longitude: xs, latitude: ys, yield: y } = table.columns as Record<string, readonly number[]>
    const places = { xs: xs!, ys: ys!, ...(variances && { variances }) }
    return gls(places, y!, [ys!, xs!], { rangeM: 8, nugget: 0.3 })
  }

  it('has the coefficients, errors, sigma and restricted likelihood of nlme', () => {
    const fit = fitted()
    const wanted = [24.51342968591887, -0.18927753449482, 0.392437186581]
    const errors = [4.6372646608054, 0.12083299860845, 0.16779829518204]
    wanted.forEach((one, k) => {
      near(fit.coefficients[k], one, 10)
      near(fit.errors[k], errors[k]!, 10)
    })
    near(fit.sigma, 6.5942913491108, 10)
    near(fit.logLik, -676.28682464051, 11)
  })

  it('has them with weights too', () => {
    // d$v <- 1 + (seq_len(224) %% 3) / 2; gls(…, weights = varFixed(~ v)).
    const fit = fitted(Array.from({ length: 224 }, (_, k) => 1 + ((k + 1) % 3) / 2))
    const wanted = [29.6766167844896, -0.38479917796075, 0.41817631683194]
    const errors = [3.673975175985311, 0.095738036901237, 0.142390945279381]
    wanted.forEach((one, k) => {
      near(fit.coefficients[k], one, 9)
      near(fit.errors[k], errors[k]!, 9)
    })
    near(fit.sigma, 5.6357344497291, 10)
    near(fit.logLik, -683.07944515766, 11)
  })

  it('is nowhere likelier than where nlme’s own search ends', () => {
    // gls(…, corExp(c(8, 0.3), nugget = TRUE)) ends at range 39.0575560567, nugget 0.207029310563, logLik −673.768665314.
    const { longitude: xs, latitude: ys, yield: y } = table.columns as Record<string, readonly number[]>
    const at = (rangeM: number, nugget: number): number =>
      gls({ xs: xs!, ys: ys! }, y!, [ys!, xs!], { rangeM, nugget }).logLik
    const best = at(39.0575560567, 0.207029310563)
    near(best, -673.768665314, 9)
    for (const [range, nugget] of [
      [36, 0.207],
      [42, 0.207],
      [39, 0.19],
      [39, 0.225],
      [20, 0.2],
      [80, 0.25],
    ] as const)
      expect(at(range, nugget)).toBeLessThan(best)
  })
})

describe.skipIf(!hasR)('gls on other open data', () => {
  it('has nlme’s values on meuse (sp), log(zinc) ~ dist, range 300, nugget 0.2', () => {
    const { columns } = readRTable(
      '{ data("meuse", package = "sp"); meuse }',
      ['x', 'y', 'zinc', 'dist'],
      'seq_len(nrow(d))',
    )
    const fit = gls({ xs: columns.x!, ys: columns.y! }, columns.zinc!.map(Math.log), [columns.dist!], {
      rangeM: 300,
      nugget: 0.2,
    })
    near(fit.coefficients[0], 6.6101910281134, 10)
    near(fit.coefficients[1], -2.8146074263425, 10)
    near(fit.errors[0], 0.14942174865188, 9)
    near(fit.errors[1], 0.37879892037594, 9)
    near(fit.sigma, 0.52831920877223, 10)
    near(fit.logLik, -87.683140062117, 10)
  })

  it('has nlme’s values on columbus (spData), CRIME ~ INC + HOVAL, range 6, nugget 0.1', () => {
    const names = ['X', 'Y', 'CRIME', 'INC', 'HOVAL']
    const { columns } = readRTable('{ data("columbus", package = "spData"); columbus }', names, 'seq_len(nrow(d))')
    const fit = gls({ xs: columns.X!, ys: columns.Y! }, columns.CRIME!, [columns.INC!, columns.HOVAL!], {
      rangeM: 6,
      nugget: 0.1,
    })
    const wanted = [49.06368317776565, -0.83386450061039, -0.23435543202617]
    const errors = [7.585172078437693, 0.316266026761625, 0.085842227190755]
    wanted.forEach((one, k) => {
      near(fit.coefficients[k], one, 9)
      near(fit.errors[k], errors[k]!, 9)
    })
    near(fit.sigma, 12.881336617452, 10)
    near(fit.logLik, -176.65224830234, 10)
  })
})
