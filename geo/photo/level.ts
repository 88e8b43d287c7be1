import type { Raster } from './placement.ts'

/** A photo at one of its sizes, ready for the screen, read block by block. Every level covers the whole photo. */
export interface Level {
  /** Tells its blocks from those of other levels in a cache. */
  readonly name: string
  readonly widthPx: number
  readonly heightPx: number
  readonly blockWidthPx: number
  readonly blockHeightPx: number
  /** Decodes one block; those at the right and lower edges end with the picture. */
  read(across: number, down: number): Promise<Raster>
}

/** A level's pixels in memory while one block is decoded, 4 bytes each. */
export const blockBytes = (level: Level): number => 4 * level.blockWidthPx * level.blockHeightPx
