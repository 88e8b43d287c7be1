import type { WorkerStart } from './workerStart.ts'

/** The server's answer took so long: then it pays to show how much of a long fetch has come. */
const SLOW_MS = 100

const early: { worker?: Worker } = {}

/**
 * Starts the desk's worker before the page's own program has come, so that it fetches the engine meanwhile. It says
 * nothing until it is spoken to. One that fails so early is started again, and heard, when it is needed.
 */
export function startEarly(): void {
  const worker = make()
  early.worker = worker
  worker.onerror = (event) => {
    event.preventDefault()
    worker.terminate()
    delete early.worker
  }
}

/** Starts the desk's worker, or gives the one that was started early. */
export function startWorker(): Worker {
  const { worker = make() } = early
  delete early.worker
  return worker
}

/** `?storage=idb` in the page's address keeps all in IndexedDB, as browsers without access handles do. */
function make(): Worker {
  const storage = new URLSearchParams(location.search).get('storage') ?? ''
  const start: WorkerStart = { storage, isSlow: isSlow() }
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: JSON.stringify(start) })
}

/** True where the page came from a server that answers slowly, and not from what the device keeps of it. */
function isSlow(): boolean {
  const [page] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
  return page !== undefined && page.workerStart === 0 && page.responseStart - page.requestStart > SLOW_MS
}
