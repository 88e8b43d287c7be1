/** When work on a run falls due. */
export type WorkPhase = 'putting up' | 'each season' | 'taking down'

/** What a system's work says of when it is done; what says nothing that is known here is done each season. */
export function workPhaseOf(when: string | null): WorkPhase {
  if (when === null) return 'each season'
  if (/tak\w* down|pull|remov|clear\w* away|autumn/i.test(when)) return 'taking down'
  if (/put\w* up|set\w* up|build|erect|install/i.test(when)) return 'putting up'
  return 'each season'
}
