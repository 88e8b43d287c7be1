import type { Shelf } from '../../../geo/keep/shelf.ts'
import { makeBlockCache } from '../../../geo/photo/blockCache.ts'
import type { ByteSource } from '../../../geo/photo/byteSource.ts'
import { drawTile, squareOf } from '../../../geo/photo/drawTile.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, photoFile, stemOf, tilesOf } from '../farm/photoFiles.ts'
import { drawWhole } from './drawWhole.ts'
import { keepPhoto } from './keepPhoto.ts'
import { type OpenPhoto, openPhoto } from './openPhotos.ts'
import { quickenPhoto } from './quickenPhoto.ts'
import { seePhoto } from './seePhoto.ts'
import { tiledPhoto } from './tiledPhoto.ts'
import type { Done, PhotoAt, TileRequest, TilesAnswer, TilesAsk } from './tilesDoor.ts'

/** Decoded blocks of all photos together that are kept for the next tiles. This bounds the memory of panning. */
export const MOST_BLOCK_BYTES = 96 * 1024 * 1024
/** Photos whose directories are kept open. */
const MOST_OPEN = 12

interface With {
  readonly signal: AbortSignal
  readonly progress: (done: Done) => void
}

export type TilesAnswers = {
  readonly [N in TileRequest]: (ask: TilesAsk<N>, asked: With) => Promise<TilesAnswer<N>>
}

/** The answers of the worker that draws large photos, over a shelf. */
export function answerTiles(shelf: Shelf, book: GridBook): TilesAnswers {
  const cache = makeBlockCache(MOST_BLOCK_BYTES)
  const open = new Map<string, Promise<OpenPhoto>>()
  let readBytes = 0
  let tiles = 0
  let drawMs = 0

  const counted = (source: ByteSource): ByteSource => ({
    bytes: source.bytes,
    async read(at, length) {
      const bytes = await source.read(at, length)
      readBytes += bytes.length
      return bytes
    },
  })
  const keyOf = ({ farm, file, crs, placedBy }: PhotoAt) => JSON.stringify([farm, file, crs, placedBy])
  const opened = (at: PhotoAt): Promise<OpenPhoto> => {
    const key = keyOf(at)
    const known = open.get(key) ?? openPhoto(shelf, book, at, counted)
    open.delete(key)
    open.set(key, known)
    known.catch(() => open.delete(key))
    for (const oldest of open.keys()) {
      if (open.size <= MOST_OPEN) break
      open.delete(oldest)
    }
    return known
  }
  const forget = (farm: string, stem: string): void => {
    for (const key of [...open.keys()]) {
      const [ofFarm, file] = JSON.parse(key) as [string, string]
      if (ofFarm === farm && stemOf(file) === stem) open.delete(key)
    }
    cache.forget(`${farm}/${stem}.`)
  }

  return {
    keep: (ask, { progress, signal }) => keepPhoto(shelf, book, ask, progress, signal),
    see: (ask, { signal }) => seePhoto(shelf, ask, signal),
    async drop({ farm, id }) {
      forget(farm, id)
      const folder = farmFolder(farm)
      for (const name of [...(await listPhotoFiles(shelf, folder)), tilesOf(id)])
        if (stemOf(name) === id) await shelf.remove(photoFile(folder, name))
      return null
    },
    async open(at) {
      // Looked at anew: its files may have been removed, or brought back, meanwhile.
      open.delete(keyOf(at))
      return tiledPhoto(await opened(at))
    },
    async quicken(at, { progress, signal }) {
      await quickenPhoto(shelf, at, await opened(at), progress, signal)
      forget(at.farm, stemOf(at.file))
      return null
    },
    async draw({ z, x, y, sidePx, ...at }, { signal }) {
      const { levels, placed, ground } = await opened(at)
      signal.throwIfAborted()
      const from = performance.now()
      const raster = await drawTile(levels, placed, ground, squareOf({ z, x, y }), sidePx, cache)
      tiles += 1
      drawMs += performance.now() - from
      if (raster === null || raster === 'too large') return null
      return createImageBitmap(new ImageData(raster.rgba, raster.widthPx, raster.heightPx))
    },
    whole: async ({ maxSidePx, ...at }, { signal }) => drawWhole(await opened(at), maxSidePx, cache, signal),
    tally: async () => ({ readBytes, blockBytes: cache.bytes, mostBlockBytes: MOST_BLOCK_BYTES, tiles, drawMs }),
  }
}
