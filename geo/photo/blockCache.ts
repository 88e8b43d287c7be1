import type { Raster } from './placement.ts'

/** Blocks of pictures that were decoded lately, up to a limit of bytes. */
export interface BlockCache {
  /** The block of that name, decoded now where it is not held. What is being decoded is not decoded twice. */
  get(name: string, decode: () => Promise<Raster>): Promise<Raster>
  /** Forgets all blocks whose names begin so. */
  forget(start: string): void
  /** Bytes held now; never more than the limit once what is under way is done. */
  readonly bytes: number
}

/** Keeps `mostBytes` of pixels (4 bytes each), and forgets first what was not asked for longest. */
export const makeBlockCache = (mostBytes: number): BlockCache => {
  const held = new Map<string, Raster>()
  const underWay = new Map<string, Promise<Raster>>()
  let bytes = 0
  const drop = (name: string): void => {
    bytes -= held.get(name)?.rgba.byteLength ?? 0
    held.delete(name)
  }
  const keep = (name: string, raster: Raster): void => {
    drop(name)
    held.set(name, raster)
    bytes += raster.rgba.byteLength
    for (const oldest of held.keys()) {
      if (bytes <= mostBytes) break
      drop(oldest)
    }
  }
  return {
    get bytes() {
      return bytes
    },
    async get(name, decode) {
      const known = held.get(name)
      if (known !== undefined) {
        held.delete(name)
        held.set(name, known)
        return known
      }
      const waiting = underWay.get(name)
      if (waiting !== undefined) return waiting
      const decoding = decode()
      underWay.set(name, decoding)
      try {
        const raster = await decoding
        keep(name, raster)
        return raster
      } finally {
        underWay.delete(name)
      }
    },
    forget(start) {
      for (const name of [...held.keys()]) if (name.startsWith(start)) drop(name)
    },
  }
}
