import './withoutEval.ts'
import { allAnswers } from './answer/allAnswers.ts'
import type { ToPage, ToWorker } from './door.ts'
import type { EngineFetch } from './engine/fetchEngine.ts'
import { makeKeeper } from './farm/makeKeeper.ts'
import { tend } from './farm/tend.ts'
import { liveLock } from './liveLock.ts'
import { serve } from './serve.ts'
import { waitForHandles } from './shelf/accessHandle.ts'

/** What the worker gives its program: where farms are to be kept, its way to the page, and the engine that it began to fetch. */
interface Start {
  readonly storage: string
  readonly fetched: EngineFetch
  post(message: ToPage, transfer: Transferable[]): void
}

/** Starts the desk in its worker; gives what takes the page's messages. */
export async function startDesk({ storage, post, fetched }: Start): Promise<(message: ToWorker) => void> {
  post({ alive: await liveLock() }, [])
  waitForHandles()
  const keeper = await makeKeeper(storage, (event) => post(event, []), fetched)
  return serve({ post }, keeper, allAnswers, tend(keeper))
}
