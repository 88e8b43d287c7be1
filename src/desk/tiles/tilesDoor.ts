import type { PhotoPlacing } from '../../../geo/model/photos.ts'
import type { PhotoCorners } from '../../../geo/photo/placement.ts'
import type { DeskFault, Reply, Taken } from '../door.ts'

/** Which photo: the farm it belongs to, its file, and the grid that the person gave for it. */
export interface PhotoAt {
  readonly farm: string
  readonly file: string
  readonly crs: string | null
  /** Set where the person has placed it by control points. */
  readonly placedBy: PhotoPlacing | null
}

/** How a photo that is drawn tile by tile lies on the map, and what is to be said of it. */
export interface TiledPhoto {
  /** Corners of the upright rectangle about it: upper left, upper right, lower right, lower left. */
  readonly corners: PhotoCorners
  readonly bounds: readonly [west: number, south: number, east: number, north: number]
  readonly minZoom: number
  readonly maxZoom: number
  /** What it lacks, and how it is shown until then (no smaller copies, rows in one piece), in words; null where nothing. */
  readonly slow: string | null
  /** False where no part of it can be drawn by itself before its copies are made: a JPEG, PNG or WebP. */
  readonly isReady: boolean
}

/** A large TIFF to be placed by points: a copy of it to look at, its full size, and what its tags say. */
export interface SeenPhoto {
  readonly widthPx: number
  readonly heightPx: number
  readonly image: ImageBitmap
  readonly taken: Taken
}

/** What was kept of the files that the person chose. */
export interface KeptPhoto {
  readonly id: string
  readonly name: string
  /** Ending of the picture's name: its file is `<id>.<ending>`. */
  readonly ending: string
}

/** What the worker has read and holds; the benches and tests look at it. */
export interface TilesTally {
  readonly readBytes: number
  readonly blockBytes: number
  readonly mostBlockBytes: number
  readonly tiles: number
  readonly drawMs: number
}

export interface TileAsk extends PhotoAt {
  readonly z: number
  readonly x: number
  readonly y: number
  readonly sidePx: number
}

/** What the page asks of the worker that draws photos too large for memory. */
export interface TileRequests {
  /**
   * Looks the chosen files through, then copies them to this device piece by piece. Where the person has placed it by
   * control points, its own tags are not asked where it lies.
   */
  keep: [
    ask: { farm: string; id: string; files: readonly File[]; crs: string | null; isPlaced: boolean },
    reply: KeptPhoto,
  ]
  /** A TIFF just chosen, or one of the farm, as a copy whose longer side is at most `maxSidePx`. Nothing is kept. */
  see: [ask: { readonly of: readonly File[] | PhotoAt; readonly maxSidePx: number }, reply: SeenPhoto]
  /** Removes all files of a photo. */
  drop: [ask: { farm: string; id: string }, reply: null]
  /** Null where the photo is small enough to be shown in one piece. A JPEG, PNG or WebP wants `placedBy` or a world file. */
  open: [ask: PhotoAt, reply: TiledPhoto | null]
  /** Makes the smaller copies that a photo lacks. */
  quicken: [ask: PhotoAt, reply: null]
  /** Null where no part of the photo lies in the tile. */
  draw: [ask: TileAsk, reply: ImageBitmap | null]
  /** The whole photo within its bounds, for paper. */
  whole: [ask: PhotoAt & { readonly maxSidePx: number }, reply: ImageBitmap]
  tally: [ask: Record<never, never>, reply: TilesTally]
}
export type TileRequest = keyof TileRequests
export type TilesAsk<N extends TileRequest> = TileRequests[N][0]
export type TilesAnswer<N extends TileRequest> = TileRequests[N][1]

/** How far long work is: bytes of a copy, rows of a photo. */
export interface Done {
  readonly done: number
  readonly of: number
}

export type ToTiles =
  | { readonly n: number; readonly name: TileRequest; readonly ask: unknown }
  | { readonly stop: number }
export type FromTiles =
  | { readonly n: number; readonly reply: Reply<unknown> }
  | { readonly n: number; readonly progress: Done }

export type { DeskFault, Reply }
