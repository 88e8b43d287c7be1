import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { ByteSource } from '../../../geo/photo/byteSource.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import type { Level } from '../../../geo/photo/level.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import { type PixelGround, pixelGround } from '../../../geo/photo/pixelGround.ts'
import { isPhotoFault, type PhotoFault, type PlacedPhoto } from '../../../geo/photo/placement.ts'
import { placedAgain } from '../../../geo/photo/placePhoto.ts'
import { tiffLevels } from '../../../geo/photo/tiffLevels.ts'
import { readTilesIndex, tilesLevels } from '../../../geo/photo/tilesFile.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, openPhotoFile, readPhotoFile, stemOf, tilesOf } from '../farm/photoFiles.ts'
import { sortEndings } from '../photo/pictureFiles.ts'
import { Refusal } from '../refusal.ts'
import { placeTiff } from './placeTiff.ts'
import { decodeTile } from './tileCodec.ts'
import type { PhotoAt } from './tilesDoor.ts'
import { lackOf, type WantedTiles } from './wantedTiles.ts'

/** A photo that is drawn tile by tile. */
export interface OpenPhoto {
  readonly placed: PlacedPhoto
  readonly ground: PixelGround
  /** Largest first. */
  readonly levels: readonly Level[]
  /** The file's own full picture, from which smaller copies are made. */
  readonly base: Level
  /** What smaller copies it lacks and has not been given, and why it is slow without; null where it is quick. */
  readonly lacks: WantedTiles | null
}

/** Opens a kept TIFF: its tags and directories, and its own smaller copies where they were made. No pixels but for a stretch. */
export async function openPhoto(
  shelf: Shelf,
  book: GridBook,
  { farm, file, crs, placedBy }: PhotoAt,
  counted: (source: ByteSource) => ByteSource,
): Promise<OpenPhoto> {
  const folder = farmFolder(farm)
  const stem = stemOf(file)
  const names = (await listPhotoFiles(shelf, folder)).filter((name) => stemOf(name) === stem)
  const kept = names.includes(file) ? await openPhotoFile(shelf, folder, file) : null
  if (kept === null)
    throw new Refusal('photo', `The photo's file ${file} is not among this farm's files.`, { field: 'file' })
  const { worldFile, prj } = sortEndings(names.map((name) => ({ name })))
  const text = async (name: string | undefined): Promise<string | null> => {
    const bytes = name === undefined ? null : await readPhotoFile(shelf, folder, name)
    return bytes && new TextDecoder().decode(bytes)
  }
  const picture = counted(kept)
  const files = { picture, worldFile: await text(worldFile?.name), prj: await text(prj?.name) }
  const placed = sound(placedBy ? placedAgain(placedBy) : await placeTiff(files, crs, book))
  const tiff = sound(await openTiff(picture))
  const key = `${farm}/${file}`
  const { levels, isTiled } = sound(await tiffLevels(tiff, key))
  const base = levels[0]!
  const lacks = lackOf(levels, isTiled)
  const ground = pixelGround(placed)
  if (lacks === null) return { placed, ground, levels, base, lacks }
  const tiles = await openPhotoFile(shelf, folder, tilesOf(file))
  const index = tiles && (await readTilesIndex(tiles))
  if (!tiles || !index) return { placed, ground, levels, base, lacks }
  const own = tilesLevels(counted(tiles), index, key, decodeTile)
  const all = lacks.from === 0 ? own : [...levels, ...own].sort((a, b) => b.widthPx - a.widthPx)
  return { placed, ground, levels: all, base, lacks: null }
}

export function sound<T extends object>(read: T | PhotoFault): T {
  if (isPhotoFault(read)) throw new Refusal('photo', read.detail, { field: read.field })
  return read
}
