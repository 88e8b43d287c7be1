import { expect, it } from 'vitest'
import { swappedByFarm } from '../../../src/sheets/exchange/swappedByFarm.ts'

it('things far from the farm that would lie by it the other way about look swapped', () => {
  const farm = [15.64, 46.34] as const
  expect(swappedByFarm([46.3, 15.6], farm)).toBe(true)
  expect(swappedByFarm([15.6, 46.3], farm)).toBe(false)
  expect(swappedByFarm([100, 10], farm)).toBe(false)
  expect(swappedByFarm(null, farm)).toBe(false)
  expect(swappedByFarm([46.3, 15.6], null)).toBe(false)
  // Where both are much alike nothing tells them apart, and across the 180th meridian is near.
  expect(swappedByFarm([40, 41], [41, 40])).toBe(false)
  expect(swappedByFarm([-179.9, 10], [179.9, 10])).toBe(false)
})
