import type { KeptFile, Shelf } from '../../../geo/keep/shelf.ts'
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
import { isTiff, mimeOf, sortEndings } from '../photo/pictureFiles.ts'
import { placePicture } from '../photo/placePicture.ts'
import { Refusal } from '../refusal.ts'
import { type PictureLevel, pictureLevel } from './pictureLevel.ts'
import { placeTiff, type TiffFiles } from './placeTiff.ts'
import { decodeTile } from './tileCodec.ts'
import type { PhotoAt } from './tilesDoor.ts'
import { lackOf, PICTURE_LACKS, type WantedTiles } from './wantedTiles.ts'

/** A photo that is drawn tile by tile. */
export interface OpenPhoto {
  readonly placed: PlacedPhoto
  readonly ground: PixelGround
  /** Largest first; none of a JPEG, PNG or WebP that has no smaller copies yet. */
  readonly levels: readonly Level[]
  /** The file's own full picture, from which smaller copies are made. */
  readonly base: Level | PictureLevel
  /** What smaller copies it lacks and has not been given, and why it is slow without; null where it is quick. */
  readonly lacks: WantedTiles | null
}

/** Opens a kept photo: a TIFF's tags and directories, and its own smaller copies where they were made. No pixels but for a stretch. */
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
  const beside = { worldFile: await text(worldFile?.name), prj: await text(prj?.name) }
  const key = `${farm}/${file}`
  const { placed, levels, base, lacks } = isTiff(endingOf(file))
    ? await openTiffPhoto({ picture, ...beside }, { crs, placedBy }, book, key)
    : await openPicture({ picture: kept, ...beside }, { crs, placedBy, file }, book, key)
  const ground = pixelGround(placed)
  if (lacks === null) return { placed, ground, levels, base, lacks }
  const tiles = await openPhotoFile(shelf, folder, tilesOf(file))
  const index = tiles && (await readTilesIndex(tiles))
  if (!tiles || !index) return { placed, ground, levels, base, lacks }
  const own = tilesLevels(counted(tiles), index, key, decodeTile)
  const all = lacks.from === 0 ? own : [...levels, ...own].sort((a, b) => b.widthPx - a.widthPx)
  return { placed, ground, levels: all, base, lacks: null }
}

type Opened = Omit<OpenPhoto, 'ground'>

async function openTiffPhoto(
  files: TiffFiles,
  { crs, placedBy }: Pick<PhotoAt, 'crs' | 'placedBy'>,
  book: GridBook,
  key: string,
): Promise<Opened> {
  const placed = sound(placedBy ? placedAgain(placedBy) : await placeTiff(files, crs, book))
  const { levels, isTiled } = sound(await tiffLevels(sound(await openTiff(files.picture)), key))
  return { placed, levels, base: levels[0]!, lacks: lackOf(levels, isTiled) }
}

/** A JPEG, PNG or WebP: it has no level of its own that could be drawn by parts. */
async function openPicture(
  { picture, worldFile, prj }: Omit<TiffFiles, 'picture'> & { readonly picture: KeptFile },
  { crs, placedBy, file }: Pick<PhotoAt, 'crs' | 'placedBy' | 'file'>,
  book: GridBook,
  key: string,
): Promise<Opened> {
  const mime = mimeOf(endingOf(file))
  const blob = async () => new Blob([await picture.read(0, picture.bytes)], { type: mime })
  const placed = sound(
    placedBy
      ? placedAgain(placedBy)
      : await placePicture(
          {
            name: file,
            kept: {
              picture: { ending: endingOf(file), bytes: await picture.read(0, picture.bytes) },
              ...(worldFile === null ? {} : { worldFile: textFile('wld', worldFile) }),
              ...(prj === null ? {} : { prj: textFile('prj', prj) }),
            },
          },
          crs,
          book,
        ),
  )
  return { placed, levels: [], base: pictureLevel(blob, placed, key), lacks: PICTURE_LACKS }
}

const endingOf = (file: string): string => file.slice(file.lastIndexOf('.') + 1).toLowerCase()
const textFile = (ending: string, text: string) => ({ ending, bytes: new TextEncoder().encode(text) })

export function sound<T extends object>(read: T | PhotoFault): T {
  if (isPhotoFault(read)) throw new Refusal('photo', read.detail, { field: read.field })
  return read
}
