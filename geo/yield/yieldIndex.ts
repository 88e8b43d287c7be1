/** Yield index: what was picked over what was expected of the same ground, both in kg; null where nothing was expected. */
export function yieldIndex(kg: number, expectedKg: number): number | null {
  return expectedKg > 0 ? kg / expectedKg : null
}
