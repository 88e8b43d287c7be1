/** The right to write to a farm. One worker has it at a time, in all tabs. */
export interface FarmLock {
  /** Gives the farm to whoever waits for it. */
  release(): void
}

const GIVEN_WITHIN_MS = 3000
/** A page that was reloaded has its lock back only when its old worker is gone. */
const FREE_WITHIN_MS = 1500

const lockName = (id: string) => `selion-farm-${id}`

/**
 * Takes a farm for this worker; null where another has it. With `takeOver` the other is asked to close it, and if it
 * does not within 3 s, the farm is taken all the same. `onAsked` is called when another asks for it in turn, `onTaken`
 * when it was taken without waiting: from then on nothing of the farm may be touched.
 */
export async function takeFarm(
  id: string,
  takeOver: boolean,
  hear: { onAsked: () => void; onTaken: () => void },
): Promise<FarmLock | null> {
  if (takeOver) askHolder(id)
  const free = await requested(id, { signal: AbortSignal.timeout(FREE_WITHIN_MS) }, hear)
  if (free || !takeOver) return free
  const given = await requested(id, { signal: AbortSignal.timeout(GIVEN_WITHIN_MS) }, hear)
  return given ?? requested(id, { steal: true }, hear)
}

function requested(
  id: string,
  how: LockOptions,
  hear: { onAsked: () => void; onTaken: () => void },
): Promise<FarmLock | null> {
  return new Promise((resolve, reject) => {
    let held = false
    const holding = navigator.locks.request(lockName(id), how, async (lock) => {
      if (!lock) return resolve(null)
      held = true
      const channel = new BroadcastChannel(lockName(id))
      channel.onmessage = () => hear.onAsked()
      await new Promise<void>((release) => resolve({ release }))
      channel.close()
    })
    holding.catch((error: unknown) => {
      if (held) hear.onTaken()
      else if (error instanceof DOMException && /^(Abort|Timeout)Error$/.test(error.name)) resolve(null)
      else reject(error)
    })
  })
}

function askHolder(id: string): void {
  const channel = new BroadcastChannel(lockName(id))
  channel.postMessage('give')
  channel.close()
}
