import { spreadOf } from './giStar.ts'

/**
 * Geary's C with row-standardised weights: (n − 1)·Σ wᵢⱼ(xᵢ − xⱼ)² / (2·S₀·Σ(xᵢ − x̄)²); 1 where there is no pattern,
 * below 1 where neighbours are alike (Geary 1954, The Incorporated Statistician 5:115–145). No neighbour list is empty.
 * Null where the values have no spread.
 */
export function geary(values: readonly number[], neighbours: readonly (readonly number[])[]): number | null {
  const { n, sd } = spreadOf(values)
  if (sd === 0) return null
  let differences = 0
  neighbours.forEach((near, i) => {
    if (near.length === 0) throw new Error(`place ${i} has no neighbour`)
    for (const j of near) differences += (values[i]! - values[j]!) ** 2 / near.length
  })
  return ((n - 1) * differences) / (2 * n * n * sd * sd)
}
