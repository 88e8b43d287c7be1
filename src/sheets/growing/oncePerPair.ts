import type { Warning } from '../../desk/door.ts'

/** A stretch that two plantings claim is warned of for both; in a list it is told once. */
export function oncePerPair(warnings: readonly Warning[]): readonly Warning[] {
  const met = new Set<string>()
  return warnings.filter((warning) => {
    if (warning.kind !== 'claimed') return true
    const pair = [warning.planting, warning.other.planting].sort().join('|')
    if (met.has(pair)) return false
    met.add(pair)
    return true
  })
}
