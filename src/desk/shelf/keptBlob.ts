import type { KeptFile } from '../../../geo/keep/shelf.ts'

/** A kept file that the browser holds as a blob, so that it can be handed on without being read. */
export interface KeptBlob extends KeptFile {
  readonly blob: Blob
}

/** A blob (a file on the disk, most often) read by parts. */
export const keptBlob = (blob: Blob): KeptBlob => ({
  blob,
  bytes: blob.size,
  read: async (at, length) => new Uint8Array(await blob.slice(at, at + length).arrayBuffer()),
})

const PART_BYTES = 4 * 1024 * 1024

/**
 * A kept file as a blob. Where the browser has it as a file, that is it; else its parts are handed to the browser one
 * after another, which puts them on the disk when they are many.
 */
export async function blobOf(file: KeptFile, signal: AbortSignal): Promise<Blob> {
  if ('blob' in file) return (file as KeptBlob).blob
  const parts: Blob[] = []
  for (let at = 0; at < file.bytes; at += PART_BYTES) {
    signal.throwIfAborted()
    parts.push(new Blob([await file.read(at, PART_BYTES)]))
  }
  return new Blob(parts)
}
