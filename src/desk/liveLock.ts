/** Takes a lock that is free again only when this worker is at an end, however it ends. Gives its name. */
export function liveLock(): Promise<string> {
  const name = `selion-worker-${crypto.randomUUID()}`
  return new Promise((taken) => {
    void navigator.locks.request(name, () => {
      taken(name)
      return new Promise<never>(() => undefined)
    })
  })
}

/** Calls back when the worker that took the lock is at an end. */
export function whenFree(name: string, ended: () => void): void {
  void navigator.locks.request(name, ended)
}
