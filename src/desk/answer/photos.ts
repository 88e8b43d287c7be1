import { type Photo, photos } from '../../../geo/model/photos.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import { drawnErrorM } from '../../../geo/photo/drawnError.ts'
import { mostDrawnOffM, photoForMap } from '../../../geo/photo/forMap.ts'
import { readPixels } from '../../../geo/photo/pixels.ts'
import {
  isPhotoFault,
  type PhotoCorners,
  type PhotoFault,
  type PlacedPhoto,
  type Raster,
} from '../../../geo/photo/placement.ts'
import { readRecords } from '../../../geo/store/row.ts'
import type { PhotoPicture } from '../door.ts'
import { changedBy } from '../farm/changedBy.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, readPhotoFile, writePhotoFile } from '../farm/photoFiles.ts'
import { takeStep } from '../farm/takeStep.ts'
import { isTiff, mimeOf, type PictureFiles, sortPictureFiles } from '../photo/pictureFiles.ts'
import { placePicture } from '../photo/placePicture.ts'
import { rasterOf } from '../photo/rasterOf.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

/** Keeps a photo's files beside the farm, as they came, and records where it lies. */
export const addPhoto: Answers['addPhoto'] = async ({ files, on, crs, at }, asked) => {
  const farm = farmOf(asked)
  const { keeper } = asked
  const picture = sortPictureFiles(files)
  const placed = sound(await placePicture(picture, crs, keeper.grids))
  const id = uuid7(keeper.nowMs(), keeper.random(10))
  for (const { ending, bytes } of Object.values(picture.kept))
    await writePhotoFile(keeper.shelf, farmFolder(farm.entry.id), `${id}.${ending}`, bytes)
  const record = {
    id,
    file: `${id}.${picture.kept.picture.ending}`,
    name: picture.name,
    on,
    corners: placed.corners.map((corner) => [...corner]),
    control_points: null,
    residuals: null,
    note: placed.notes.length > 0 ? placed.notes.join(' ') : null,
    extra: crs ? { crs } : {},
  }
  const step = await takeStep(keeper, farm, `Add the photo ${picture.name}`, [{ do: 'add', kind: 'photos', record }])
  return { photo: record as unknown as Photo, changed: await changedBy(farm, step, at) }
}

/** A photo as a map draws it: its own encoded picture where that lies true enough between its corners, else redrawn. */
export const photoPicture: Answers['photoPicture'] = async ({ id, maxSidePx }, asked) => {
  const { db, entry } = farmOf(asked)
  const found = (await db.transaction((tx) => readRecords(tx, photos))) as unknown as Photo[]
  const photo = found.find((one) => one.id === id)
  if (!photo) throw new Refusal('not found', 'This photo is not there any more.', { record: id })
  const files = await filesOf(asked.keeper.shelf, farmFolder(entry.id), photo)
  const crs = typeof photo.extra.crs === 'string' ? photo.extra.crs : null
  const { picture, worldFile } = files.kept
  const encoded = (corners: PhotoCorners): PhotoPicture => ({
    id,
    corners,
    picture: { type: 'encoded', mime: mimeOf(picture.ending), bytes: picture.bytes },
  })
  if (!isTiff(picture.ending) && !worldFile) {
    if (!photo.corners) throw new Refusal('photo', 'This photo has not been placed.', { record: id })
    return encoded(photo.corners as PhotoCorners)
  }
  const placed = sound(await placePicture(files, crs, asked.keeper.grids))
  asked.signal.throwIfAborted()
  if (!isTiff(picture.ending) && drawnErrorM(placed, placed.corners) <= mostDrawnOffM) return encoded(placed.corners)
  const raster = isTiff(picture.ending)
    ? sound(await readPixels(picture.bytes, maxSidePx))
    : await rasterOf(picture.bytes, mimeOf(picture.ending), maxSidePx)
  asked.signal.throwIfAborted()
  return drawn(id, raster, placed, maxSidePx)
}

function drawn(id: string, raster: Raster, placed: PlacedPhoto, maxSidePx: number): PhotoPicture {
  const { raster: shown, corners } = photoForMap(raster, placed, maxSidePx)
  const { rgba, widthPx, heightPx } = shown
  return { id, corners, picture: { type: 'rgba', width: widthPx, height: heightPx, data: rgba } }
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
