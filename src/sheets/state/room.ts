/** Room on this device, in bytes, as far as the browser tells. */
export interface Room {
  readonly used: number
  /** Null where the browser does not tell. */
  readonly free: number | null
  /** True when the browser has promised not to clear it away by itself. */
  readonly stays: boolean
}

/** Asks the browser how much room is used and left (WHATWG Storage §4). What it tells is an estimate. */
export async function readRoom(): Promise<Room> {
  const storage = navigator.storage as StorageManager | undefined
  const [told, stays] = await Promise.all([
    storage?.estimate?.().catch(() => null),
    storage?.persisted?.().catch(() => false),
  ])
  const { quota, usage = 0 } = told ?? {}
  return { used: usage, free: quota === undefined ? null : Math.max(0, quota - usage), stays: stays ?? false }
}

/** Asks the browser not to clear the farms away when the device runs short of room. It may say no. */
export async function askToStay(): Promise<void> {
  await navigator.storage?.persist?.().catch(() => false)
}
