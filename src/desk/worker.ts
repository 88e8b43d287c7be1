import type { ToPage, ToWorker } from './door.ts'
import { engineFetch } from './engine/fetchEngine.ts'
import type { WorkerStart } from './workerStart.ts'

const worker = self as unknown as {
  name: string
  onmessage: (message: MessageEvent<ToWorker>) => void
  postMessage(message: ToPage, transfer: Transferable[]): void
}
const start = JSON.parse(worker.name) as WorkerStart

/** What there is to say before the page has spoken: it starts this worker before its own program has come, and hears nothing yet. */
let unsaid: (() => void)[] | null = []
const post = (message: ToPage, transfer: Transferable[]) => {
  const say = () => worker.postMessage(message, transfer)
  if (unsaid) unsaid.push(say)
  else say()
}

// The worker's own program is long: what every farm needs is fetched while it comes and is read.
const program = import('./startDesk.ts')
const fetched = engineFetch((progress) => post({ event: 'progress', progress }, []), start.isSlow)
// A fault is told when a farm is opened.
void fetched.engine().catch(() => undefined)

const starting = program.then(({ startDesk }) => startDesk({ storage: start.storage, post, fetched }))
// Told to the page, which ends a worker that can't start.
starting.catch(reportError)
worker.onmessage = async ({ data }) => {
  for (const say of unsaid ?? []) say()
  unsaid = null
  if ('name' in data && data.name === 'makeDemo') fetched.expect('demo')
  ;(await starting)(data)
}
