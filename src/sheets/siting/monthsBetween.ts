/** The months of a span of days, each from its first day in the span to its last, both within. */
export function monthsBetween(from: string, to: string): { readonly from: string; readonly to: string }[] {
  const months: { from: string; to: string }[] = []
  for (let first = from; first <= to; ) {
    const [year, month] = [Number(first.slice(0, 4)), Number(first.slice(5, 7))]
    const last = new Date(Date.UTC(year, month, 0)).toISOString().slice(0, 10)
    months.push({ from: first, to: last < to ? last : to })
    first = new Date(Date.UTC(year, month, 1)).toISOString().slice(0, 10)
  }
  return months
}
