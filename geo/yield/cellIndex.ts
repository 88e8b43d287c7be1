/** Index of a cell: what its picks that count came to over what was expected of it, both smoothed alike; null where nothing was expected. */
export function cellIndex(
  { countedKg, expectedKg }: { readonly countedKg: ArrayLike<number>; readonly expectedKg: ArrayLike<number> },
  cell: number,
): number | null {
  const expected = expectedKg[cell]!
  return expected > 0 ? countedKg[cell]! / expected : null
}
