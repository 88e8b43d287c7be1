/**
 * Chance that Student's t with `df` degrees of freedom (above 0) lies at least as far from 0, on either side, as t:
 * the incomplete beta function I(df/2, 1/2) at df/(df + t²) (Abramowitz & Stegun 26.7.1).
 */
export function twoSidedT(t: number, df: number): number {
  return incompleteBeta(df / (df + t * t), df / 2, 0.5)
}

/** The t that is passed on either side together with chance `p` (0–1): the inverse of `twoSidedT`, by halves. */
export function quantileT(p: number, df: number): number {
  let [low, high] = [0, 1]
  while (twoSidedT(high, df) > p) high *= 2
  for (let k = 0; k < 200 && high - low > 1e-14 * high; k += 1) {
    const middle = (low + high) / 2
    if (twoSidedT(middle, df) > p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Regularised incomplete beta function by its continued fraction (A&S 26.5.8, worked by Lentz's method). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a)
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + lnGamma(a + b) - lnGamma(a) - lnGamma(b)) / a
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m < 1000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / (1 + even * d)
    c = 1 + even / c
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / (1 + odd * d)
    c = 1 + odd / c
    fraction *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return front * fraction
}

/** ln Γ(x) for x > 0: Stirling's series (A&S 6.1.41) from x + 8 upwards, brought down by the recurrence. */
function lnGamma(x: number): number {
  let down = 0
  let at = x
  for (; at < 16; at += 1) down += Math.log(at)
  const q = 1 / (at * at)
  const series = (1 / 12 - q * (1 / 360 - q * (1 / 1260 - q * (1 / 1680 - q / 1188)))) / at
  return (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + series - down
}
