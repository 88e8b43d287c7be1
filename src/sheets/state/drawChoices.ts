import { effect, type Signal, signal } from '@preact/signals'
import { ALL_SNAPS, SNAPS, type Snaps } from '../../draw/snap.ts'

const KEPT = 'selion.draw'

/** What goes along when a bed is moved or reshaped, or a field moved. */
export interface TakesAlong {
  readonly beds: boolean
  readonly rows: boolean
  readonly supports: boolean
  readonly trees: boolean
}

interface Choices {
  readonly snaps: Snaps
  readonly keepsSquare: boolean
  readonly along: TakesAlong
}

function kept(): Partial<Choices> {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(KEPT) ?? '{}')
    return typeof read === 'object' && read !== null ? (read as Partial<Choices>) : {}
  } catch {
    return {}
  }
}

const before = kept()
const flags = <K extends string>(of: Readonly<Record<K, boolean>>, given: unknown): Record<K, boolean> => {
  const out: Record<K, boolean> = { ...of }
  for (const key of Object.keys(of) as K[]) {
    const value = (given as Record<string, unknown> | undefined)?.[key]
    if (typeof value === 'boolean') out[key] = value
  }
  return out
}

/** What the pointer is held to while something is drawn, whether rectangles keep their right angles, and what goes along with a bed; kept on this device. */
export const snaps: Signal<Snaps> = signal(flags(ALL_SNAPS, before.snaps))
export const keepsSquare = signal(before.keepsSquare !== false)
export const takesAlong = signal<TakesAlong>(
  flags({ beds: true, rows: true, supports: true, trees: false }, before.along),
)

effect(() => {
  const now: Choices = { snaps: snaps.value, keepsSquare: keepsSquare.value, along: takesAlong.value }
  localStorage.setItem(KEPT, JSON.stringify(now))
})

export const allSnap = (): boolean => SNAPS.every((name) => snaps.value[name])
