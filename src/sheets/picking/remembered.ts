import type { ShareLine } from './shareParts.ts'

/** What this device remembers from one pick to the next: who picks with it, and how the last pick was shared. */
export interface Remembered {
  readonly picker: string | null
  readonly shares: readonly ShareLine[]
}

const KEPT = 'selion.pick'
const NOTHING: Remembered = { picker: null, shares: [] }

export function readRemembered(): Remembered {
  const text = localStorage.getItem(KEPT)
  if (text === null) return NOTHING
  try {
    return asRemembered(JSON.parse(text))
  } catch {
    return NOTHING
  }
}

export function remember(what: Remembered): void {
  localStorage.setItem(KEPT, JSON.stringify(what))
}

function asRemembered(told: unknown): Remembered {
  if (typeof told !== 'object' || told === null) return NOTHING
  const { picker, shares } = told as { picker?: unknown; shares?: unknown }
  return {
    picker: typeof picker === 'string' ? picker : null,
    shares: Array.isArray(shares) ? shares.filter(isLine) : [],
  }
}

function isLine(line: unknown): line is ShareLine {
  if (typeof line !== 'object' || line === null) return false
  const { to, part, use } = line as { to?: unknown; part?: unknown; use?: unknown }
  return typeof to === 'string' && typeof part === 'number' && (use === null || typeof use === 'string')
}
