/**
 * Chance that a standard normal variable lies at least as far from 0, on either side, as z: erfc(|z|/√2).
 */
export function twoSidedP(z: number): number {
  return erfc(Math.abs(z) / Math.SQRT2)
}

/**
 * Complementary error function for x ≥ 0, to about 1e-13 relative.
 * Below 2.5 by the series of Abramowitz & Stegun 7.1.6, whose terms are all positive; above by their continued
 * fraction 7.1.14, worked from the far end.
 */
export function erfc(x: number): number {
  return x < 2.5 ? 1 - erfSeries(x) : erfcFraction(x)
}

function erfSeries(x: number): number {
  let term = x
  let sum = x
  for (let n = 1; term > sum * 1e-17; n += 1) {
    term *= (2 * x * x) / (2 * n + 1)
    sum += term
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum
}

function erfcFraction(x: number): number {
  let tail = x
  for (let k = 100; k >= 1; k -= 1) tail = x + k / 2 / tail
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail)
}

/** Chance that a standard normal variable lies below z. */
export function normalBelow(z: number): number {
  return z < 0 ? twoSidedP(z) / 2 : 1 - twoSidedP(z) / 2
}

/** The z below which a standard normal variable lies with chance `p` (above 0, below 1): by halves, to rounding. */
export function quantileNormal(p: number): number {
  let [low, high] = [-40, 40]
  for (let k = 0; k < 200 && high - low > 1e-15 * Math.abs(low + high); k += 1) {
    const middle = (low + high) / 2
    if (normalBelow(middle) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}
