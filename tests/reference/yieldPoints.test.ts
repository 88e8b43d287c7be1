import { beforeAll, describe, expect, it } from 'vitest'
import { benjaminiHochberg } from '../../geo/yield/benjaminiHochberg.ts'
import { geary } from '../../geo/yield/geary.ts'
import { giStar } from '../../geo/yield/giStar.ts'
import { moran } from '../../geo/yield/moran.ts'
import { twoSidedP } from '../../geo/yield/normal.ts'
import { neighboursWithin } from '../../geo/yield/pointGrid.ts'
import { inverseDistance } from '../../geo/yield/points/inverseDistance.ts'
import { krige } from '../../geo/yield/points/kriging.ts'
import { nearestPoints, pointBuckets } from '../../geo/yield/points/nearestPoints.ts'
import type { ValuedPoint } from '../../geo/yield/points/valuedPoint.ts'
import { variogram } from '../../geo/yield/points/variogram.ts'
import { fitVariogram, type VariogramModel } from '../../geo/yield/points/variogramModel.ts'
import { readRTable, rWithData } from './rData.ts'

/** Surfaces through points against R 4.2.2, gstat 2.1-0 (X), and two more data sets against spdep 1.2-7 (X). */
const hasR = rWithData()
if (!hasR)
  console.info(
    'Wheat2, meuse and columbus not checked: they need R with nlme and spData (Debian: r-cran-nlme, r-cran-spdata)',
  )

const near = (found: number | undefined, wanted: number, digits: number): void => {
  expect(Math.abs(found! / wanted - 1), `${found} for ${wanted}`).toBeLessThan(10 ** -digits)
}

function pointsOf(frame: string, x: string, y: string, z: string, of = (v: number): number => v): ValuedPoint[] {
  const { columns } = readRTable(frame, [x, y, z], 'seq_len(nrow(d))')
  return columns[x]!.map((one, k) => ({ x: one, y: columns[y]![k]!, value: of(columns[z]![k]!) }))
}

const kriged = (
  points: readonly ValuedPoint[],
  model: VariogramModel,
  wanted: readonly (readonly number[])[],
): void => {
  for (const [x, y, value, variance] of wanted) {
    const at = krige(points, model, x!, y!)
    near(at?.value, value!, 9)
    near(at?.variance, variance!, 9)
  }
}

/** The 40 points nearest to a place, as gstat's nmax = 40 takes them. */
const nearest = (points: readonly ValuedPoint[], x: number, y: number): ValuedPoint[] =>
  nearestPoints(pointBuckets(points), x, y, 40).map((k) => points[k]!)

describe.skipIf(!hasR)('Wheat2 of nlme', () => {
  let points: ValuedPoint[]
  beforeAll(() => {
    points = pointsOf('as.data.frame(nlme::Wheat2)', 'longitude', 'latitude', 'yield')
  })

  it('has the published inverse distances, idw(yield ~ 1, s, nd, idp = 2)', () => {
    near(inverseDistance(points, 13, 24), 27.574794847, 11)
    near(inverseDistance(points, 5, 40), 12.314327535, 10)
    near(inverseDistance(points, 20.5, 10), 30.3428763895, 11)
    expect(inverseDistance(points, points[7]!.x, points[7]!.y)).toBe(points[7]!.value)
  })

  it('has the published ordinary kriging, and that of two more models', () => {
    // krige(yield ~ 1, s, nd, vgm(45, "Sph", 25, 15)); vgm(45, "Exp", 10, 15); vgm(45, "Gau", 12, 15).
    kriged(points, { shape: 'spherical', nugget: 15, psill: 45, rangeM: 25 }, [
      [13, 24, 28.1102699444, 21.6167057975],
      [5, 40, 7.9769094914, 21.2435148997],
      [20.5, 10, 31.11871723, 21.3413781679],
    ])
    kriged(points, { shape: 'exponential', nugget: 15, psill: 45, rangeM: 10 }, [
      [13, 24, 27.9787421158959, 24.9437958201634],
      [5, 40, 7.57154674786715, 24.2408232910303],
      [20.5, 10, 31.45405047840151, 24.4242533088039],
    ])
    kriged(points, { shape: 'gaussian', nugget: 15, psill: 45, rangeM: 12 }, [
      [13, 24, 28.97452888177349, 15.9816467450114],
      [5, 40, 9.12867141299448, 16.1346932483816],
      [20.5, 10, 30.42495494451617, 16.1315369536628],
    ])
  })

  it('has the semivariogram and the gaussian fit of gstat', () => {
    // v <- variogram(yield ~ 1, s); fit.variogram(v, vgm(45, "Gau", 15, 15)): nugget 19.36157422, psill 57.11542335,
    // range 16.37459301, SSErr 347.0874778. Its spherical and exponential fits don't converge here.
    const bins = variogram(points)
    expect(bins.map(({ pairs }) => pairs)).toEqual([
      210, 199, 387, 917, 832, 462, 948, 1316, 648, 845, 1287, 1172, 910, 628,
    ])
    near(bins[2]!.distanceM, 3.95994832041, 11)
    near(bins[2]!.gamma, 21.6304263566, 11)
    near(bins[13]!.gamma, 60.3996417197, 11)
    const fit = fitVariogram(bins, 'gaussian')!
    // gstat's search ends before the least squares. R's own optim over the same squares (reltol 1e-15, begun again five
    // times) ends at 19.3841222 58.8857812 16.7229433, 346.6604.
    near(fit.nugget, 19.3841222, 6)
    near(fit.psill, 58.8857812, 6)
    near(fit.rangeM, 16.7229433, 6)
    near(fit.squaresLeft, 346.6604, 8)
  })
})

describe.skipIf(!hasR)('meuse of sp, log(zinc)', () => {
  // data(meuse); m <- meuse; coordinates(m) <- ~ x + y; v <- variogram(log(zinc) ~ 1, m)
  let points: ValuedPoint[]
  beforeAll(() => {
    points = pointsOf('{ data("meuse", package = "sp"); meuse }', 'x', 'y', 'zinc', Math.log)
  })

  it('has gstat’s semivariogram and its three fits', () => {
    const bins = variogram(points)
    expect(bins.map(({ pairs }) => pairs)).toEqual([
      57, 299, 419, 457, 547, 533, 574, 564, 589, 543, 500, 477, 452, 457, 415,
    ])
    near(bins[0]!.distanceM, 79.2924374557837, 10)
    near(bins[0]!.gamma, 0.123447934906159, 11)
    near(bins[14]!.gamma, 0.574822734067877, 11)
    // fit.variogram(v, vgm(1, "Sph", 900, 1)): 0.05066242682 0.5906078022 897.0209098, SSErr 9.011194399e-06;
    // vgm(.5, "Exp", 400, .1): 0, 0.7186480504, 449.7525515, 1.628327549e-05; "Gau": 0.1167885137 0.4974715873 386.5347976.
    const sph = fitVariogram(bins, 'spherical')!
    near(sph.nugget, 0.05066242682, 3)
    near(sph.psill, 0.5906078022, 4)
    near(sph.rangeM, 897.0209098, 4)
    expect(sph.squaresLeft).toBeLessThanOrEqual(9.011194399e-6 * (1 + 1e-9))
    const exp = fitVariogram(bins, 'exponential')!
    expect(exp.nugget).toBe(0)
    near(exp.psill, 0.7186480504, 3)
    near(exp.rangeM, 449.7525515, 3)
    // Along the gaussian's flat valley gstat stops early (SSErr 1.915069022e-05); R's optim, as above, at these.
    const gau = fitVariogram(bins, 'gaussian')!
    near(gau.nugget, 0.124356999, 6)
    near(gau.psill, 0.505070739, 6)
    near(gau.rangeM, 411.437867, 6)
    near(gau.squaresLeft, 1.76155056e-5, 8)
  })

  it('has gstat’s kriging and inverse distances, of all points and of the 40 nearest', () => {
    // krige(log(zinc) ~ 1, m, p, vgm(0.59, "Sph", 897, 0.05)), and with nmax = 40; idw(…, idp = 2), and with nmax = 40.
    const model = { shape: 'spherical', nugget: 0.05, psill: 0.59, rangeM: 897 } as const
    kriged(points, model, [
      [179500, 330500, 5.17466539569102, 0.169037995838383],
      [180000, 331000, 5.05511505117881, 0.160176593082982],
      [181000, 333000, 5.53269090197368, 0.13642934631366],
    ])
    kriged(nearest(points, 179500, 330500), model, [[179500, 330500, 5.1600112913268, 0.169807823731597]])
    kriged(nearest(points, 181000, 333000), model, [[181000, 333000, 5.53409644636867, 0.136568790506287]])
    near(inverseDistance(points, 180000, 331000), 5.24387343612406, 11)
    near(inverseDistance(nearest(points, 180000, 331000), 180000, 331000), 5.13388211235369, 11)
  })

  it('has spdep’s Moran, Geary and Gi* within 400 m', () => {
    // nb <- dnearneigh(xy, 0, 400); lw <- nb2listw(nb, style = "W"); moran.test(…, alternative = "two.sided");
    // geary.test; localG(…, nb2listw(include.self(nb), style = "B")); p.adjust(2 * pnorm(-abs(g)), "BH") < .05: 24 hot, 27 cold.
    const values = points.map(({ value }) => value)
    const within = neighboursWithin(
      points.map(({ x }) => x),
      points.map(({ y }) => y),
      400,
    )
    const found = moran(values, within)
    near(found?.i, 0.3978832903622869, 11)
    near(found?.variance, 0.0010508419105786, 10)
    near(found?.z, 12.474338797784, 10)
    near(geary(values, within)!, 0.5681949773379392, 11)
    const g = giStar(values, within).map((z) => z!)
    near(g[0], 1.46736618347, 10)
    near(g[59], 2.02273322833, 10)
    near(g[154], 0.727013216357, 10)
    const q = benjaminiHochberg(g.map(twoSidedP))
    expect([1, -1].map((side) => g.filter((z, k) => q[k]! < 0.05 && Math.sign(z) === side).length)).toEqual([24, 27])
  })
})

describe.skipIf(!hasR)('columbus of spData, CRIME', () => {
  let points: ValuedPoint[]
  beforeAll(() => {
    points = pointsOf('{ data("columbus", package = "spData"); columbus }', 'X', 'Y', 'CRIME')
  })

  it('has spdep’s Moran, Geary and Gi* within 7', () => {
    const values = points.map(({ value }) => value)
    const within = neighboursWithin(
      points.map(({ x }) => x),
      points.map(({ y }) => y),
      7,
    )
    const found = moran(values, within)
    near(found?.i, 0.3408518285572, 11)
    near(found?.variance, 0.00255543444967, 10)
    near(found?.z, 7.154813530696, 10)
    near(geary(values, within)!, 0.6695013796377, 11)
    const g = giStar(values, within).map((z) => z!)
    near(g[0], -0.808476154154, 10)
    near(g[19], -0.744760691146, 10)
    near(g[48], 1.54852511961, 10)
    const q = benjaminiHochberg(g.map(twoSidedP))
    expect([1, -1].map((side) => g.filter((z, k) => q[k]! < 0.05 && Math.sign(z) === side).length)).toEqual([20, 7])
  })

  it('has gstat’s kriging, krige(CRIME ~ 1, s, p, vgm(200, "Exp", 5, 60))', () => {
    kriged(points, { shape: 'exponential', nugget: 60, psill: 200, rangeM: 5 }, [
      [35, 30, 39.9539443449724, 137.661845787065],
      [40, 33, 53.2455180760958, 110.02521190732],
      [45, 38, 29.5151762004477, 153.777057887043],
    ])
  })
})
