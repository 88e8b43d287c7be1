/**
 * Benjamini–Hochberg q values: the least false discovery rate at which each p is taken for real.
 * q of the k-th smallest p of m is the least of m·p/k over it and all greater p, at most 1
 * (Benjamini & Hochberg 1995, J. R. Statist. Soc. B 57:289–300).
 */
export function benjaminiHochberg(p: readonly number[]): number[] {
  const greatestFirst = p.map((_, k) => k).sort((a, b) => p[b]! - p[a]!)
  const q: number[] = new Array(p.length).fill(1)
  let least = 1
  greatestFirst.forEach((k, after) => {
    const rank = p.length - after
    least = Math.min(least, (p[k]! * p.length) / rank)
    q[k] = least
  })
  return q
}
