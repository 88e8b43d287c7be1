import type { Shelf } from '../../../geo/keep/shelf.ts'
import { Refusal } from '../refusal.ts'

/** Room on this device, in bytes, as far as the browser tells. */
export interface Room {
  readonly free: number | null
  /** What the photos of all farms take up. */
  readonly photos: number
}

/** Room that stays free for the farm's own records, the step log and its copies. */
const RESERVE_BYTES = 64 * 1024 * 1024
const MB = 1024 * 1024

/** Bytes of all photos of all farms, counted file by file: what the browser estimates lags behind, or leaves files out. */
export async function photoBytes(shelf: Shelf): Promise<number> {
  let bytes = 0
  for (const name of await shelf.list('farms/'))
    if (name.includes('/photos/')) bytes += (await shelf.open(name))?.bytes ?? 0
  return bytes
}

export async function roomOf(shelf: Shelf): Promise<Room> {
  const photos = await photoBytes(shelf)
  // Node, where the desk is tested, has no storage to ask.
  const storage = globalThis.navigator?.storage as StorageManager | undefined
  const told = await storage?.estimate().catch(() => null)
  const { quota, usage } = told ?? {}
  return { photos, free: quota === undefined ? null : Math.max(0, quota - Math.max(usage ?? 0, photos)) }
}

export const megabytes = (bytes: number): string => `${Math.max(1, Math.round(bytes / MB)).toLocaleString()} MB`

/** Refuses what does not fit, before any of it is copied. */
export async function refuseWithoutRoom(shelf: Shelf, wanted: number): Promise<void> {
  const { free, photos } = await roomOf(shelf)
  if (free === null || wanted + RESERVE_BYTES <= free) return
  throw new Refusal(
    'storage',
    `There is too little room on this device: the photo takes ${megabytes(wanted)}, the browser gives ${megabytes(free)} more, of which ${megabytes(RESERVE_BYTES)} stay for the farm’s records. Photos kept here take ${megabytes(photos)} now. Nothing was copied.`,
    { field: 'file' },
  )
}

/** What is told when the room ran out in the middle. */
export const ranOut = (copied: number, of: number): Refusal =>
  new Refusal(
    'storage',
    `The room on this device ran out after ${megabytes(copied)} of ${megabytes(of)}. What was copied has been removed again, and the farm is as it was. Make room, or choose a smaller photo.`,
    { field: 'file' },
  )
