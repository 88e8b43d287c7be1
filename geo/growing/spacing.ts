/** Rounding of lengths that are meant to hold a whole number of spacings. */
const SLACK_M = 0.001

/** Plants that stand along a stretch at a spacing, one at its very start. */
export function plantsAt(lengthM: number, spacingM: number): number {
  return Math.floor((lengthM + SLACK_M) / spacingM) + 1
}

/** The spacing that spreads so many plants over a stretch, from its very start to its very end; null for one plant or none. */
export function spacingOf(lengthM: number, plants: number): number | null {
  return plants > 1 ? lengthM / (plants - 1) : null
}
