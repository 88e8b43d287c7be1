import type { Answer, Ask, RequestName } from '../door.ts'
import type { FarmInHand, Keeper } from '../farm/keeper.ts'
import { Refusal } from '../refusal.ts'

/** What an answer is given with. */
export interface Asked {
  readonly keeper: Keeper
  /** Aborted when the person stops the request; looked at between steps. */
  readonly signal: AbortSignal
}

/** What is left of an answer when the farm has been read: long work, done while other requests are answered. */
export class Aside<T> {
  readonly work: () => Promise<T>

  constructor(work: () => Promise<T>) {
    this.work = work
  }
}

export type Answers = {
  readonly [N in RequestName]: (ask: Ask<N>, asked: Asked) => Promise<Answer<N> | Aside<Answer<N>>>
}

/** The farm in hand; refuses where none is open. */
export function farmOf({ keeper }: Asked): FarmInHand {
  if (!keeper.inHand) throw new Refusal('not found', 'No farm is open.')
  return keeper.inHand
}
