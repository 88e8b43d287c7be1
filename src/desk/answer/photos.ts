import { type Photo, photos } from '../../../geo/model/photos.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import { drawnErrorM } from '../../../geo/photo/drawnError.ts'
import { readTaken } from '../../../geo/photo/exif.ts'
import { mostDrawnOffM, photoForMap } from '../../../geo/photo/forMap.ts'
import { readPixels } from '../../../geo/photo/pixels.ts'
import {
  isPhotoFault,
  type PhotoCorners,
  type PhotoFault,
  type PlacedPhoto,
  type Raster,
} from '../../../geo/photo/placement.ts'
import { placedAgain } from '../../../geo/photo/placePhoto.ts'
import type { Database } from '../../../geo/store/database.ts'
import { readRecords } from '../../../geo/store/row.ts'
import type { PhotoPicture } from '../door.ts'
import { changedBy } from '../farm/changedBy.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, readPhotoFile, writePhotoFile } from '../farm/photoFiles.ts'
import { takeStep } from '../farm/takeStep.ts'
import { type EndedFile, isTiff, mimeOf, type PictureFiles, sortPictureFiles } from '../photo/pictureFiles.ts'
import { placePicture, sizeOf } from '../photo/placePicture.ts'
import { rasterOf } from '../photo/rasterOf.ts'
import { refuseFar } from '../photo/refuseFar.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

/** Keeps a photo's files beside the farm, as they came, and records where it lies. */
export const addPhoto: Answers['addPhoto'] = async ({ files, on, crs, place, at }, asked) => {
  const farm = farmOf(asked)
  const { keeper } = asked
  const picture = sortPictureFiles(files)
  const placed = place ? null : sound(await placePicture(picture, crs, keeper.grids))
  if (placed) await refuseFar(farm.db, placed.corners)
  const id = uuid7(keeper.nowMs(), keeper.random(10))
  for (const { ending, bytes } of Object.values(picture.kept))
    await writePhotoFile(keeper.shelf, farmFolder(farm.entry.id), `${id}.${ending}`, bytes)
  const record = {
    id,
    file: `${id}.${picture.kept.picture.ending}`,
    name: picture.name,
    on,
    corners: placed?.corners.map((corner) => [...corner]) ?? null,
    control_points: null,
    residuals: null,
    note: placed && placed.notes.length > 0 ? placed.notes.join(' ') : null,
    placed_by: null,
    opacity: null,
    shown: null,
    on_every_sheet: null,
    pile: null,
    ...place,
    extra: crs ? { crs } : {},
  }
  const step = await takeStep(keeper, farm, `Add the photo ${picture.name}`, [{ do: 'add', kind: 'photos', record }])
  return { photo: record as unknown as Photo, changed: await changedBy(farm, step, at) }
}

/** A photo as a map draws it: its own encoded picture where that lies true enough between its corners, else redrawn. */
export const photoPicture: Answers['photoPicture'] = async ({ id, maxSidePx }, asked) => {
  const { db, entry } = farmOf(asked)
  const photo = await photoOf(db, id)
  const files = await filesOf(asked.keeper.shelf, farmFolder(entry.id), photo)
  const crs = typeof photo.extra.crs === 'string' ? photo.extra.crs : null
  const { picture, worldFile } = files.kept
  if (photo.placed_by) {
    const placed = sound(placedAgain(photo.placed_by))
    const isSmall = Math.max(placed.widthPx, placed.heightPx) <= maxSidePx
    if (!isTiff(picture.ending) && isSmall && drawnErrorM(placed, placed.corners) <= mostDrawnOffM)
      return encodedOf(id, picture, placed.corners)
    return drawn(id, await decoded(picture, maxSidePx), placed, maxSidePx)
  }
  if (!isTiff(picture.ending) && !worldFile) {
    if (!photo.corners) throw new Refusal('photo', 'This photo has not been placed.', { record: id })
    return encodedOf(id, picture, photo.corners as PhotoCorners)
  }
  const placed = sound(await placePicture(files, crs, asked.keeper.grids))
  asked.signal.throwIfAborted()
  const isSmall = Math.max(placed.widthPx, placed.heightPx) <= maxSidePx
  if (!isTiff(picture.ending) && isSmall && drawnErrorM(placed, placed.corners) <= mostDrawnOffM)
    return encodedOf(id, picture, placed.corners)
  const raster = await decoded(picture, maxSidePx)
  asked.signal.throwIfAborted()
  return drawn(id, raster, placed, maxSidePx)
}

/** A picture as the person sees it while placing it, with what its tags say. Nothing is kept. */
export const seePicture: Answers['seePicture'] = async ({ of, maxSidePx }, asked) => {
  const { db, entry } = farmOf(asked)
  const photo = typeof of === 'string' ? await photoOf(db, of) : null
  const files = photo ? await filesOf(asked.keeper.shelf, farmFolder(entry.id), photo) : sortPictureFiles(of as never)
  const { picture } = files.kept
  const size = sound(await sizeOf(picture.bytes, picture.ending))
  asked.signal.throwIfAborted()
  const isSmall = Math.max(size.widthPx, size.heightPx) <= maxSidePx
  const seen =
    isSmall && !isTiff(picture.ending)
      ? encodedOf('', picture, [] as never).picture
      : asRgba(await decoded(picture, maxSidePx))
  asked.signal.throwIfAborted()
  return { name: photo?.name ?? files.name, ...size, picture: seen, taken: await readTaken(picture.bytes) }
}

async function photoOf(db: Database, id: string): Promise<Photo> {
  const found = (await db.transaction((tx) => readRecords(tx, photos))) as unknown as Photo[]
  const photo = found.find((one) => one.id === id)
  if (!photo) throw new Refusal('not found', 'This photo is not there any more.', { record: id })
  return photo
}

const encodedOf = (id: string, { ending, bytes }: EndedFile, corners: PhotoCorners): PhotoPicture => ({
  id,
  isShrunk: false,
  corners,
  picture: { type: 'encoded', mime: mimeOf(ending), bytes },
})

async function decoded({ ending, bytes }: EndedFile, maxSidePx: number): Promise<Raster> {
  return isTiff(ending) ? sound(await readPixels(bytes, maxSidePx)) : rasterOf(bytes, mimeOf(ending), maxSidePx)
}

const asRgba = ({ rgba, widthPx, heightPx }: Raster): PhotoPicture['picture'] => ({
  type: 'rgba',
  width: widthPx,
  height: heightPx,
  data: rgba,
})

function drawn(id: string, raster: Raster, placed: PlacedPhoto, maxSidePx: number): PhotoPicture {
  const { raster: shown, corners } = photoForMap(raster, placed, maxSidePx)
  const isShrunk = Math.max(placed.widthPx, placed.heightPx) > maxSidePx
  return { id, isShrunk, corners, picture: asRgba(shown) }
}

async function filesOf(
  shelf: Parameters<typeof readPhotoFile>[0],
  folder: string,
  { id, file }: Photo,
): Promise<PictureFiles> {
  const stem = file.replace(/\.[^.]*$/, '')
  const names = (await listPhotoFiles(shelf, folder)).filter((name) => name === file || name.startsWith(`${stem}.`))
  const files = []
  for (const name of names) {
    const bytes = await readPhotoFile(shelf, folder, name)
    if (bytes) files.push({ name, bytes })
  }
  if (!names.includes(file))
    throw new Refusal('photo', `The photo's file ${file} is not among this farm's files.`, {
      record: id,
      field: 'file',
    })
  return sortPictureFiles(files)
}

function sound<T extends object>(read: T | PhotoFault): T {
  if (isPhotoFault(read)) throw new Refusal('photo', read.detail, { field: read.field })
  return read
}
