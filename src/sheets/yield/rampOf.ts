import type { Ramp } from '../../map/farmMap.ts'

/** What the surface is coloured by. */
export type YieldShown = 'index' | 'density' | 'points' | 'hot'

/** The ramp of amounts up to their 98th percentile, so that one rich cell does not darken the rest. */
export function amountRamp(amounts: ArrayLike<number>): Ramp {
  const some = Float64Array.from(amounts).filter((amount) => amount > 0)
  const sorted = some.sort()
  return { of: 'amount', most: roundUp(sorted[Math.floor((sorted.length - 1) * 0.98)] ?? 1) }
}

/** The ramp from the least to the most of what is told everywhere. */
export function spanRamp(values: ArrayLike<number>): Ramp {
  const sorted = Float64Array.from(values)
    .filter((value) => Number.isFinite(value))
    .sort()
  const [least, most] = [sorted[0] ?? 0, sorted.at(-1) ?? 0]
  return most > least ? { of: 'amount', least, most } : amountRamp(values)
}

/** Up to one figure that matters: 3.4 → 4, 0.62 → 0.7. */
export function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value))
  return Number((Math.ceil(value / power - 1e-9) * power).toPrecision(1))
}
