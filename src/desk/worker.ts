import type { ToPage, ToWorker } from './door.ts'
import { engineFetch } from './engine/fetchEngine.ts'
import type { WorkerStart } from './workerStart.ts'

const worker = self as unknown as {
  name: string
  onmessage: (message: MessageEvent<ToWorker>) => void
  postMessage(message: ToPage, transfer: Transferable[]): void
}
const start = JSON.parse(worker.name) as WorkerStart

// The page hears nothing before it has spoken: it starts this worker before its own program has come.
let spoken = () => {}
const heard = new Promise<void>((go) => {
  spoken = go
})
let isHeard = false
void heard.then(() => {
  isHeard = true
})
const post = (message: ToPage, transfer: Transferable[]) => {
  if (isHeard) worker.postMessage(message, transfer)
  else void heard.then(() => worker.postMessage(message, transfer))
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
  spoken()
  if ('name' in data && data.name === 'makeDemo') fetched.expect('demo')
  ;(await starting)(data)
}
