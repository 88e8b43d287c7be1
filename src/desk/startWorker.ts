/** Starts the desk's worker. `?storage=idb` in the page's address keeps all in IndexedDB, as browsers without access handles do. */
export function startWorker(): Worker {
  const storage = new URLSearchParams(location.search).get('storage') ?? ''
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: storage })
}
