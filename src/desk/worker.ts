import { allAnswers } from './answer/allAnswers.ts'
import type { ToPage, ToWorker } from './door.ts'
import { makeKeeper } from './farm/makeKeeper.ts'
import { tend } from './farm/tend.ts'
import { liveLock } from './liveLock.ts'
import { serve } from './serve.ts'
import { waitForHandles } from './shelf/accessHandle.ts'

const worker = self as unknown as {
  name: string
  onmessage: (message: MessageEvent<ToWorker>) => void
  postMessage(message: ToPage, transfer: Transferable[]): void
}

const post = (message: ToPage, transfer: Transferable[]) => worker.postMessage(message, transfer)

async function start() {
  post({ alive: await liveLock() }, [])
  waitForHandles()
  const keeper = await makeKeeper(worker.name, (event) => post(event, []))
  return serve({ post }, keeper, allAnswers, tend(keeper))
}

const starting = start()
worker.onmessage = async ({ data }) => (await starting)(data)
