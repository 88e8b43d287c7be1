/**
 * Random numbers from 0 up to 1, the same for the same seed on every machine.
 * SplitMix32: a Weyl sequence put through a 32-bit finaliser (Steele, Lea & Flood 2014, OOPSLA; after MurmurHash3).
 */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x9e3779b9) >>> 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 4294967296
  }
}
