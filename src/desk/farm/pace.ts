import type { Pace } from '../../../geo/store/pace.ts'
import type { Keeper } from './keeper.ts'

/** How long work goes on before other messages are heard. */
const BREATH_MS = 50

/** Tells the page how far some work is, where it has a name; hears whether the person has stopped it, and then throws. */
export function paceOf({ keeper, signal }: { keeper: Keeper; signal: AbortSignal }, doing: string | null): Pace {
  let breathedMs = keeper.nowMs()
  return async (done, of) => {
    if (keeper.nowMs() - breathedMs < BREATH_MS) return
    if (doing !== null) keeper.say({ event: 'progress', progress: { doing, done, of } })
    await new Promise((go) => setTimeout(go, 0))
    breathedMs = keeper.nowMs()
    signal.throwIfAborted()
  }
}
