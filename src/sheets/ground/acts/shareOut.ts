/** A count shared by weights, whole and the same in sum; what is not known stays so. */
export function shareOut(count: unknown, weights: readonly number[]): readonly (number | null)[] {
  if (typeof count !== 'number') return weights.map(() => null)
  const all = weights.reduce((a, b) => a + b, 0)
  let [sum, given] = [0, 0]
  return weights.map((weight) => {
    sum += weight
    const due = Math.round((count * sum) / all)
    const share = due - given
    given = due
    return share
  })
}
