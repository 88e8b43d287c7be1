import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { benjaminiHochberg } from '../../geo/yield/benjaminiHochberg.ts'
import { geary } from '../../geo/yield/geary.ts'
import { gi } from '../../geo/yield/gi.ts'
import { giStar } from '../../geo/yield/giStar.ts'
import { moran } from '../../geo/yield/moran.ts'
import { twoSidedP } from '../../geo/yield/normal.ts'
import { neighboursWithin } from '../../geo/yield/pointGrid.ts'
import { type RTable, readRTable, rWithData } from './rData.ts'

const near = (value: number | null | undefined, wanted: number, within: number): void => {
  expect(value).not.toBeNull()
  expect(Math.abs(value! - wanted), `${value} against ${wanted}`).toBeLessThanOrEqual(within)
}

describe('Benjamini–Hochberg', () => {
  // Benjamini & Hochberg 1995, J. R. Statist. Soc. B 57:289–300, p. 295: fifteen p values of a trial (C2).
  const p = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
  ]

  it('takes four of the paper’s fifteen for real at 0.05, where Bonferroni takes three', () => {
    expect(benjaminiHochberg(p).filter((q) => q <= 0.05)).toHaveLength(4)
    expect(p.filter((one) => one * p.length <= 0.05)).toHaveLength(3)
  })

  it('agrees with R’s p.adjust on them, in any order', () => {
    // R 4.2.2, p.adjust(p, "BH") (X).
    const wanted = [
      0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.06385714285714286, 0.06385714285714286, 0.0645, 0.0765, 0.486,
      0.5811818181818182, 0.714875, 0.7532307692307693, 0.8132142857142857, 1,
    ]
    const shuffled = [7, 0, 14, 3, 11, 1, 9, 5, 13, 2, 8, 6, 12, 4, 10]
    const q = benjaminiHochberg(shuffled.map((k) => p[k]!))
    shuffled.forEach((k, at) => {
      near(q[at], wanted[k]!, 1e-12)
    })
  })
})

describe('two-sided p of the normal', () => {
  // R 4.2.2: 2 * pnorm(-z) (X).
  const table: readonly (readonly [number, number])[] = [
    [0, 1],
    [0.5, 0.61707507745197387],
    [1, 0.31731050786291409],
    [1.96, 0.049995790296440856],
    [2.4, 0.016395071849192269],
    [2.6, 0.0093223760474374952],
    [3.5, 0.00046525815807104987],
    [3.6, 0.0003182171803150676],
    [5, 5.7330314375838782e-7],
    [20, 5.5072482372124675e-89],
    [37, 1.1451142445049154e-299],
  ]
  it.each(table)('at z = %f is %f, either side, to ten figures', (z, p) => {
    near(twoSidedP(z) / p, 1, 1e-10)
    expect(twoSidedP(-z)).toBe(twoSidedP(z))
  })
})

const mercer = join(process.env.SELION_OPEN_DATA ?? '../shared/data', 'mercer.wheat.uniformity.txt')
if (!existsSync(mercer))
  console.info(`${mercer} is not there: it is in the R package agridat (MIT), or set SELION_OPEN_DATA`)

describe('the wheat acre of Mercer & Hall 1911', () => {
  it.skipIf(!existsSync(mercer))('has the mean and the Moran’s I that are published for it', () => {
    // Mean 3.94864 lb (Mercer & Hall, J. Agric. Sci. 4:107–132, C); I with rook neighbours 0.401125827309 (spdep, X).
    const lines = readFileSync(mercer, 'utf8').trim().split(/\r?\n/).slice(1)
    const plots = lines.map((line) => line.trim().split(/\s+/).map(Number))
    const grain = plots.map((plot) => plot[2]!)
    expect(grain).toHaveLength(500)
    near(grain.reduce((sum, lb) => sum + lb, 0) / 500, 3.94864, 1e-9)
    const rook = neighboursWithin(
      plots.map((plot) => plot[1]!),
      plots.map((plot) => plot[0]!),
      1,
    )
    near(moran(grain, rook)?.i, 0.401125827309, 1e-11)
  })
})

const hasR = rWithData()
if (!hasR)
  console.info('Wheat2 and go_xyz not checked: they need R with nlme and spData (Debian: r-cran-nlme, r-cran-spdata)')

describe.skipIf(!hasR)('Getis & Ord 1996, cell 120 of go_xyz', () => {
  // R 4.2.2, spdep 1.2-7 localG over binary weights (X); data go_xyz of spData.
  let table: RTable
  beforeAll(() => {
    table = readRTable('{ data("getisord", package = "spData"); go_xyz }', ['x', 'y', 'val'], 'seq_len(nrow(d))')
  })
  it.each([
    [30, 1.221979, 1.45078],
    [60, 1.748098, 1.900559],
    [90, 1.986135, 2.096939],
    [120, 1.893374, 1.981907],
  ])('has the published Gi and Gi* at %i m', (bandM, withoutSelf, withSelf) => {
    const near120 = neighboursWithin(table.columns.x!, table.columns.y!, bandM)
    near(gi(table.columns.val!, near120)[119], withoutSelf, 5e-7)
    near(giStar(table.columns.val!, near120)[119], withSelf, 5e-7)
  })
})

describe.skipIf(!hasR)('Wheat2 of nlme', () => {
  // R 4.2.2, nlme 3.1-162, spdep 1.2-7: dnearneigh 0–4.5, moran.test and geary.test with style W, localG with style B
  // and self included, p.adjust "BH" (X).
  let table: RTable
  let yields: readonly number[]
  let neighbours: number[][]
  beforeAll(() => {
    const frame = 'as.data.frame(nlme::Wheat2)'
    table = readRTable(frame, ['longitude', 'latitude', 'yield'], 'd$variety')
    yields = table.columns.yield!
    neighbours = neighboursWithin(table.columns.longitude!, table.columns.latitude!, 4.5)
  })
  const plot = (variety: string, longitude: number, latitude: number): number =>
    table.labels.findIndex(
      (label, k) =>
        label === variety && table.columns.longitude![k] === longitude && table.columns.latitude![k] === latitude,
    )

  it('is the 224 plots whose mean and spread are published', () => {
    expect(yields).toHaveLength(224)
    const mean = yields.reduce((sum, y) => sum + y, 0) / 224
    near(mean, 25.5270089285714, 1e-12)
    near(Math.sqrt(yields.reduce((sum, y) => sum + (y - mean) ** 2, 0) / 223), 7.45017954940051, 1e-12)
  })

  it('has the published Moran’s I, its variance and z', () => {
    const found = moran(yields, neighbours)
    near(found?.i, 0.614178219186, 1e-11)
    near(found?.expected, -1 / 223, 1e-15)
    near(found?.variance, 0.00083033183, 1e-11)
    near(found?.z, 21.4697983693, 1e-8)
  })

  it('has the published Geary’s C', () => {
    near(geary(yields, neighbours), 0.390960545737, 1e-11)
  })

  it('has the published Gi* of three plots, with p and q', () => {
    const z = giStar(yields, neighbours)
    const p = z.map((one) => twoSidedP(one!))
    const q = benjaminiHochberg(p)
    near(z[plot('NE87499', 4.8, 38.7)], -8.659130244672, 1e-10)
    near(z[plot('BUCKSKIN', 4.8, 21.5)], 0.632847302443, 1e-10)
    const cody = plot('CODY', 22.8, 4.3)
    near(z[cody], 3.256081764399, 1e-10)
    near(p[cody], 0.0011296122, 5e-11)
    near(q[cody], 0.0081623589, 5e-11)
  })

  it('finds as many hot and cold plots as published', () => {
    const z = giStar(yields, neighbours).map((one) => one!)
    const p = z.map(twoSidedP)
    const q = benjaminiHochberg(p)
    const count = (level: readonly number[], sign: number): number =>
      z.filter((one, k) => level[k]! < 0.05 && Math.sign(one) === sign).length
    expect([count(p, 1), count(p, -1), count(q, 1), count(q, -1)]).toEqual([46, 35, 25, 32])
  })
})
