import type { ToPage, ToWorker } from './door.ts'
import { engineFetch } from './engine/fetchEngine.ts'

const worker = self as unknown as {
  name: string
  onmessage: (message: MessageEvent<ToWorker>) => void
  postMessage(message: ToPage, transfer: Transferable[]): void
}

const post = (message: ToPage, transfer: Transferable[]) => worker.postMessage(message, transfer)

// The worker's own program is long: what every farm needs is fetched while it comes and is read.
const program = import('./startDesk.ts')
const fetched = engineFetch((progress) => post({ event: 'progress', progress }, []))
// A fault is told when a farm is opened.
void fetched('there').catch(() => undefined)

const starting = program.then(({ startDesk }) => startDesk({ name: worker.name, post, fetched }))
// Told to the page, which ends a worker that can't start.
starting.catch(reportError)
worker.onmessage = async ({ data }) => (await starting)(data)
