/** A file on a shelf, read by parts. A part that runs past the end comes back shorter. */
export interface KeptFile {
  readonly bytes: number
  read(at: number, length: number): Promise<Uint8Array<ArrayBuffer>>
}

/** A large file that is being written piece by piece. Until it is finished nobody should read it. */
export interface ShelfWriter {
  append(bytes: Uint8Array): Promise<void>
  /** When it resolves, the whole file is on the disk. */
  finish(): Promise<void>
  /** Leaves nothing of it. */
  abandon(): Promise<void>
}

/**
 * A few named files beside the database, on whatever storage there is. Names are paths with `/`. One writer at a
 * time. What a promise has resolved for is on the disk.
 */
export interface Shelf {
  /** Names of all files below a folder (`farms/1/`), sorted. */
  list(folder: string): Promise<string[]>
  /** A file's bytes, or null where there is none. */
  read(name: string): Promise<Uint8Array | null>
  /** Writes a whole file anew. An end in the middle can leave it cut short: what must not be lost is written by turns. */
  write(name: string, bytes: Uint8Array): Promise<void>
  /** Adds to a file's end, making it where it is not there. An end in the middle can leave part of the bytes. */
  append(name: string, bytes: Uint8Array): Promise<void>
  /** Removes a file; nothing happens where there is none. */
  remove(name: string): Promise<void>
  /** Opens a file to be read by parts, without the rest of it in memory; null where there is none. */
  open(name: string): Promise<KeptFile | null>
  /** Begins a file anew that is too large to be written in one piece. */
  begin(name: string): Promise<ShelfWriter>
}

/** A shelf that lasts as long as its map of files. */
export function memoryShelf(files: Map<string, Uint8Array> = new Map()): Shelf {
  return {
    list: async (folder) => [...files.keys()].filter((name) => name.startsWith(folder)).sort(),
    read: async (name) => files.get(name)?.slice() ?? null,
    write: async (name, bytes) => void files.set(name, bytes.slice()),
    append: async (name, bytes) => void files.set(name, joined([files.get(name) ?? new Uint8Array(), bytes])),
    remove: async (name) => void files.delete(name),
    async open(name) {
      const bytes = files.get(name)
      return bytes
        ? { bytes: bytes.length, read: async (at, length) => Uint8Array.from(bytes.subarray(at, at + length)) }
        : null
    },
    async begin(name) {
      const parts: Uint8Array[] = []
      return {
        append: async (bytes) => void parts.push(bytes.slice()),
        finish: async () => void files.set(name, joined(parts)),
        abandon: async () => void files.delete(name),
      }
    },
  }
}

/** The bytes one after another. */
export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}
