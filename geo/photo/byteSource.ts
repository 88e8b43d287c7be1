/** A file that is read by parts, wherever it lies. A part that runs past the end comes back shorter. */
export interface ByteSource {
  readonly bytes: number
  read(at: number, length: number): Promise<Uint8Array<ArrayBuffer>>
}

/** Bytes in memory as a source. */
export const sourceOfBytes = (all: Uint8Array<ArrayBuffer>): ByteSource => ({
  bytes: all.length,
  read: async (at, length) => all.slice(at, at + length),
})

const pageBytes = 64 * 1024
const mostPages = 64

/**
 * A source that asks another for whole pages of 64 KB where little is wanted at a time, and keeps the last 64 of them
 * (4 MB): directories are read some bytes at a time. Larger parts pass straight through.
 */
export const pagedSource = (source: ByteSource): ByteSource => {
  const pages = new Map<number, Promise<Uint8Array<ArrayBuffer>>>()
  const page = (index: number): Promise<Uint8Array<ArrayBuffer>> => {
    const known = pages.get(index)
    const found = known ?? source.read(index * pageBytes, pageBytes)
    pages.delete(index)
    pages.set(index, found)
    for (const oldest of pages.keys()) {
      if (pages.size <= mostPages) break
      pages.delete(oldest)
    }
    found.catch(() => pages.delete(index))
    return found
  }
  return {
    bytes: source.bytes,
    async read(at, length) {
      if (length >= pageBytes) return source.read(at, length)
      const end = Math.min(source.bytes, at + length)
      if (!(end > at)) return new Uint8Array(0)
      const out = new Uint8Array(end - at)
      for (let index = Math.floor(at / pageBytes); index * pageBytes < end; index += 1) {
        const from = index * pageBytes
        const part = (await page(index)).subarray(Math.max(0, at - from), end - from)
        out.set(part, Math.max(0, from - at))
      }
      return out
    },
  }
}
