/** The right to write to a farm. One worker has it at a time, in all tabs. */
export interface FarmLock {
  /** Gives the farm to whoever waits for it. */
  release(): void
}

const GIVEN_WITHIN_MS = 3000
/** A page that was reloaded has its lock back only when its old worker is gone; one that lives says so when asked. */
const FREE_WITHIN_MS = 1500
const GONE_WITHIN_MS = 10_000

const lockName = (id: string) => `selion-farm-${id}`

/**
 * Takes a farm for this worker; null where another has it, which is so when it says it has, or holds on for 10 s. With
 * `takeOver` the other is asked to close it, and if it does not within 3 s, the farm is taken all the same. `onAsked` is
 * called when another asks for it in turn, `onTaken` when it was taken without waiting: from then on nothing of the farm
 * may be touched.
 */
export async function takeFarm(
  id: string,
  takeOver: boolean,
  hear: { onAsked: () => void; onTaken: () => void },
): Promise<FarmLock | null> {
  if (!takeOver) return unlessHeld(id, (signal) => requested(id, { signal }, hear))
  askHolder(id)
  const free = await requested(id, { signal: AbortSignal.timeout(FREE_WITHIN_MS) }, hear)
  if (free) return free
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
      channel.onmessage = ({ data }) => {
        if (data === 'give') hear.onAsked()
        if (data === 'who') channel.postMessage('here')
      }
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

/** Waits for what `request` asks, until a living holder has answered or none has let go for long. */
async function unlessHeld<T>(id: string, request: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const held = new AbortController()
  const begunMs = performance.now()
  const late = setTimeout(() => held.abort(), GONE_WITHIN_MS)
  const channel = new BroadcastChannel(lockName(id))
  channel.onmessage = ({ data }) => {
    if (data === 'here') setTimeout(() => held.abort(), FREE_WITHIN_MS - (performance.now() - begunMs))
  }
  channel.postMessage('who')
  try {
    return await request(held.signal)
  } finally {
    clearTimeout(late)
    channel.close()
  }
}

function askHolder(id: string): void {
  const channel = new BroadcastChannel(lockName(id))
  channel.postMessage('give')
  channel.close()
}
