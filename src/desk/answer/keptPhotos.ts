import type { KeptFile, Shelf } from '../../../geo/keep/shelf.ts'
import type { Photo } from '../../../geo/model/photos.ts'
import { isPhotoFault } from '../../../geo/photo/placement.ts'
import { changedBy } from '../farm/changedBy.ts'
import { farmFolder } from '../farm/entry.ts'
import type { FarmInHand } from '../farm/keeper.ts'
import { listPhotoFiles, openPhotoFile, photoFile, readPhotoFile, stemOf, tilesOf } from '../farm/photoFiles.ts'
import { removedFiles } from '../farm/removedFiles.ts'
import { takeStep } from '../farm/takeStep.ts'
import { sortEndings } from '../photo/pictureFiles.ts'
import { refuseFar } from '../photo/refuseFar.ts'
import { Refusal } from '../refusal.ts'
import { roomOf } from '../tiles/photoRoom.ts'
import { placeTiff } from '../tiles/placeTiff.ts'
import { type Answers, farmOf } from './answers.ts'

/** Records a photo whose files lie in the farm's folder already. It lies where the person has placed it, else is placed from them, read by parts. */
export const recordPhoto: Answers['recordPhoto'] = async ({ id, name, ending, on, crs, place, at }, asked) => {
  const farm = farmOf(asked)
  const { keeper } = asked
  const folder = farmFolder(farm.entry.id)
  const file = `${id}.${ending}`
  const names = (await listPhotoFiles(keeper.shelf, folder)).filter((one) => stemOf(one) === id)
  const picture = await openPhotoFile(keeper.shelf, folder, file)
  if (picture === null) throw new Refusal('photo', `${name} was not kept on this device.`, { field: 'file' })
  const { worldFile, prj } = sortEndings(names.map((one) => ({ name: one })))
  const text = async (one: string | undefined): Promise<string | null> => {
    const bytes = one === undefined ? null : await readPhotoFile(keeper.shelf, folder, one)
    return bytes && new TextDecoder().decode(bytes)
  }
  const files = { picture, worldFile: await text(worldFile?.name), prj: await text(prj?.name) }
  const placed = place ? null : await placeTiff(files, crs, keeper.grids)
  if (placed && isPhotoFault(placed)) throw new Refusal('photo', placed.detail, { field: placed.field })
  if (placed) await refuseFar(farm.db, placed.corners)
  const record = {
    id,
    file,
    name,
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
  const step = await takeStep(keeper, farm, `Add the photo ${name}`, [{ do: 'add', kind: 'photos', record }])
  return { photo: record as unknown as Photo, changed: await changedBy(farm, step, at) }
}

export const photoRoom: Answers['photoRoom'] = async (_, asked) => {
  const farm = farmOf(asked)
  const { shelf } = asked.keeper
  const files = await removedFiles(shelf, farm)
  let bytes = 0
  for (const name of files) {
    bytes += (await openPhotoFile(shelf, farmFolder(farm.entry.id), name))?.bytes ?? 0
    bytes += (await openTiles(shelf, farm, name))?.bytes ?? 0
  }
  return { ...(await roomOf(shelf)), removed: new Set(files.map(stemOf)).size, removedBytes: bytes }
}

export const freeRemovedPhotos: Answers['freeRemovedPhotos'] = async (_, asked) => {
  const farm = farmOf(asked)
  const { shelf } = asked.keeper
  const folder = farmFolder(farm.entry.id)
  for (const name of await removedFiles(shelf, farm)) {
    await shelf.remove(photoFile(folder, name))
    await shelf.remove(photoFile(folder, tilesOf(name)))
  }
  return null
}

const openTiles = (shelf: Shelf, farm: FarmInHand, name: string): Promise<KeptFile | null> =>
  openPhotoFile(shelf, farmFolder(farm.entry.id), tilesOf(name))
