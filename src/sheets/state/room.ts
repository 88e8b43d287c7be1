import { fileBytes } from './fileBytes.ts'

/** Room on this device, in bytes, as far as the browser tells. */
export interface Room {
  readonly used: number
  /** Null where the browser does not tell. */
  readonly free: number | null
  /** True when the browser has promised not to clear it away by itself. */
  readonly stays: boolean
}

/** What Chromium tells besides: for every file that is open it counts what it set aside for it, a megabyte or more. */
interface EstimateByKind {
  readonly usageDetails?: { readonly fileSystem?: number }
}

/**
 * Asks the browser how much room is used and left (WHATWG Storage §4). What it tells is an estimate; files are counted as
 * they are.
 */
export async function readRoom(): Promise<Room> {
  const storage = navigator.storage as StorageManager | undefined
  const [told, stays] = await Promise.all([
    storage?.estimate?.().catch(() => null),
    storage?.persisted?.().catch(() => false),
  ])
  const { quota, usage = 0 } = told ?? {}
  const setAside = (told as EstimateByKind | null | undefined)?.usageDetails?.fileSystem ?? 0
  const inFiles = setAside && (await navigator.storage.getDirectory().then(fileBytes, () => setAside))
  return {
    used: usage - setAside + inFiles,
    free: quota === undefined ? null : Math.max(0, quota - usage),
    stays: stays ?? false,
  }
}

/** Asks the browser not to clear the farms away when the device runs short of room. It may say no. */
export async function askToStay(): Promise<void> {
  await navigator.storage?.persist?.().catch(() => false)
}
