/**
 * Cholesky factor of a symmetric positive definite matrix, in place: `a` holds n × n rows, of which the lower half is
 * read and overwritten by L with A = LLᵀ. False where the matrix is not positive definite to rounding.
 */
export function cholesky(a: Float64Array, n: number): boolean {
  for (let j = 0; j < n; j += 1) {
    const rowJ = j * n
    for (let i = j; i < n; i += 1) {
      const rowI = i * n
      let sum = a[rowI + j]!
      for (let k = 0; k < j; k += 1) sum -= a[rowI + k]! * a[rowJ + k]!
      if (i > j) a[rowI + j] = sum / a[rowJ + j]!
      else if (sum > 1e-12 * a[rowJ + j]!) a[rowJ + j] = Math.sqrt(sum)
      else return false
    }
  }
  return true
}

/** Solves Lx = b in place, L as `cholesky` leaves it. */
export function solveLower(l: Float64Array, n: number, b: Float64Array): Float64Array {
  for (let i = 0; i < n; i += 1) {
    let sum = b[i]!
    for (let k = 0; k < i; k += 1) sum -= l[i * n + k]! * b[k]!
    b[i] = sum / l[i * n + i]!
  }
  return b
}

/** Solves Lᵀx = b in place. */
export function solveUpper(l: Float64Array, n: number, b: Float64Array): Float64Array {
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = b[i]!
    for (let k = i + 1; k < n; k += 1) sum -= l[k * n + i]! * b[k]!
    b[i] = sum / l[i * n + i]!
  }
  return b
}
