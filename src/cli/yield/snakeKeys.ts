/** The same with every key in snake case, as the command line's JSON has them: `kgPerM2` → `kg_per_m2`. */
export function snakeKeys(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(snakeKeys)
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [
      key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`),
      snakeKeys(inner),
    ]),
  )
}
