import { expect, it } from 'vitest'
import { blackWalnutCrownM, MATURE_REACH_M, reachAt, spreadOn } from '../../geo/measure/canopy.ts'
import { isJugloneSource } from '../../geo/measure/juglone.ts'

// Crown diameters reckoned from USDA Forest Service PSW-GTR-253 with its 2020 errata, Lower Midwest (X, reference values section 11).
it.each([
  [5, 2.73],
  [10, 4.97],
  [15, 6.82],
  [20, 8.35],
  [30, 10.73],
  [40, 12.47],
])('gives a black walnut of %i years a crown of %f m', (age, crownM) => {
  expect(blackWalnutCrownM(age)).toBeCloseTo(crownM, 1)
  expect(Math.abs(blackWalnutCrownM(age) - crownM)).toBeLessThan(0.006)
})

const walnut = { species: 'Juglans nigra', planted: null, height_m: 8, canopy_radius_m: 2.485, measured: '2020-06-01' }

it('keeps the measured radius on its day and grows along the curve from it', () => {
  expect(spreadOn(walnut, '2020-06-01').canopyM).toBe(2.485)
  // 2.485 m is the curve's radius at 10 years, so ten years on it is that of 20: 8.35 / 2.
  expect(spreadOn(walnut, '2030-06-01').canopyM).toBeCloseTo(8.35 / 2, 2)
  expect(spreadOn(walnut, '2030-06-01').assumed).toBe(false)
})

it('keeps other species as measured and says that it is assumed', () => {
  const hazel = { ...walnut, species: 'Corylus avellana', canopy_radius_m: 1.5 }
  expect(spreadOn(hazel, '2030-06-01')).toMatchObject({ canopyM: 1.5, assumed: true })
  expect(spreadOn(hazel, '2020-06-01').assumed).toBe(false)
})

// Ohio State (Funt & Martin, C2): 50–60 ft when mature; root spread twice the height across for trees of 2–8 ft.
it('reaches as far as a young tree is tall, and 60 ft from a mature one', () => {
  expect(reachAt(0.8)).toBe(0.8)
  expect(reachAt(2.4384)).toBeCloseTo(2.4384, 12)
  expect(MATURE_REACH_M).toBeCloseTo(18.288, 10)
  expect(reachAt(20)).toBe(MATURE_REACH_M)
  for (let height = 0; height < 20; height += 0.5) expect(reachAt(height + 0.5)).toBeGreaterThanOrEqual(reachAt(height))
})

// Purdue HO-193 (C) and OMAFRA (C): black walnut gives it off, Persian on its own roots hardly, on black stock it does.
it('knows the sources by record, species and rootstock', () => {
  const tree = (species: string, rootstock: string | null, juglone: 'source' | 'none' | null = null) =>
    isJugloneSource({ species, rootstock, juglone })
  expect(tree('Juglans nigra', null)).toBe(true)
  expect(tree('Juglans regia', null)).toBe(false)
  expect(tree('Juglans regia', 'Juglans nigra')).toBe(true)
  expect(tree('Juglans nigra', null, 'none')).toBe(false)
  expect(tree('Corylus avellana', null, 'source')).toBe(true)
})
