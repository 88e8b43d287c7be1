/** Below this share of the largest, a diagonal element of R tells that the unknowns do not stand apart. */
const leastDiagonal = 1e-11

/**
 * The unknowns x that make the sum of (rows·x − values)² least, by Householder's QR (Golub and Van Loan, Matrix
 * Computations, algorithms 5.1.1 and 5.3.2), which keeps the condition of the rows where normal equations would square
 * it. Null where the rows do not determine x.
 */
export const leastSquares = (rows: readonly (readonly number[])[], values: readonly number[]): number[] | null => {
  const unknowns = rows[0]?.length ?? 0
  const count = rows.length
  if (count < unknowns || unknowns === 0) return null
  const a = rows.map((row, i) => [...row, values[i]!])
  for (let k = 0; k < unknowns; k += 1) {
    const norm = Math.hypot(...a.slice(k).map((row) => row[k]!))
    if (norm === 0) return null
    const alpha = a[k]![k]! > 0 ? -norm : norm
    const v = a.slice(k).map((row) => row[k]!)
    v[0]! -= alpha
    const vv = v.reduce((sum, value) => sum + value * value, 0)
    for (let j = k; j <= unknowns; j += 1) {
      let dot = 0
      for (let i = k; i < count; i += 1) dot += v[i - k]! * a[i]![j]!
      const factor = (2 * dot) / vv
      for (let i = k; i < count; i += 1) a[i]![j]! -= factor * v[i - k]!
    }
  }
  const diagonal = Array.from({ length: unknowns }, (_, k) => Math.abs(a[k]![k]!))
  if (!(Math.min(...diagonal) > leastDiagonal * Math.max(...diagonal))) return null
  const x = new Array<number>(unknowns).fill(0)
  for (let k = unknowns - 1; k >= 0; k -= 1) {
    let sum = a[k]![unknowns]!
    for (let j = k + 1; j < unknowns; j += 1) sum -= a[k]![j]! * x[j]!
    x[k] = sum / a[k]![k]!
  }
  return x
}
