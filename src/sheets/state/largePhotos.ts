import { signal } from '@preact/signals'
import type { Photo } from '../../../geo/model/photos.ts'
import type { Changed, DeskFault, PhotoPlace, PhotoRoom, Reply } from '../../desk/door.ts'
import { openTiles } from '../../desk/tiles/tilesClient.ts'
import type { PhotoAt, SeenPhoto } from '../../desk/tiles/tilesDoor.ts'
import type { MapPhoto } from '../../map/farmMap.ts'
import { showBytes } from '../show/bytes.ts'
import { ask } from './door.ts'
import { openFarm } from './farm.ts'
import { on } from './where.ts'

/** A TIFF of more bytes is never read whole: it is copied piece by piece, and looked at by parts. */
const LARGE_BYTES = 24 * 1024 * 1024
/** What a path on a shelf and its folder may hold. */
const TIFF = /\.tiff?$/i

export const isTiff = ({ file }: Pick<Photo, 'file'>): boolean => TIFF.test(file)

/** Long work on a photo: what, how far, and how to stop it. */
export interface LargeDoing {
  readonly what: string
  readonly done: number
  readonly of: number
  readonly stop: () => void
}

/** The worker is started when the first photo needs it. */
const tiles = openTiles()

export const largeDoing = signal<LargeDoing | null>(null)
export const largeFault = signal<DeskFault | null>(null)
/** A large file whose grid is not told by itself: the person says it. */
export const largeGridWanted = signal<{ readonly files: readonly File[]; readonly why: string } | null>(null)
/** Photos that are slow to look at, by id: why, in words. */
export const slowPhotos = signal<ReadonlyMap<string, string>>(new Map())
/** What photos take up on this device; null until asked. */
export const photoRoom = signal<PhotoRoom | null>(null)

export const isLargeChoice = (files: readonly File[]): boolean =>
  files.some(({ name, size }) => TIFF.test(name) && size > LARGE_BYTES)

export function forgetLargePhotos(): void {
  largeFault.value = null
  largeGridWanted.value = null
  slowPhotos.value = new Map()
  photoRoom.value = null
}

const at = (photo: Pick<Photo, 'file' | 'extra' | 'placed_by'>): PhotoAt | null => {
  const farm = openFarm.value?.entry.id
  const crs = typeof photo.extra.crs === 'string' ? photo.extra.crs : null
  return farm === undefined ? null : { farm, file: photo.file, crs, placedBy: photo.placed_by }
}

/** A photo that the map draws tile by tile; null where it is shown in one piece: it is small, or has no smaller copies yet. */
export async function tiledPicture(photo: Photo): Promise<Pick<MapPhoto, 'corners' | 'picture'> | DeskFault | null> {
  const where = at(photo)
  if (where === null) return null
  const reply = await tiles.ask('open', where)
  if (!reply.ok) return reply.fault
  if (reply.value === null) return null
  const { corners, bounds, minZoom, maxZoom, slow, isReady } = reply.value
  const known = new Map(slowPhotos.value)
  if (slow === null) known.delete(photo.id)
  else known.set(photo.id, slow)
  slowPhotos.value = known
  if (!isReady) return null
  return {
    corners,
    picture: {
      type: 'tiles',
      bounds,
      minZoom,
      maxZoom,
      async draw(tile, sidePx, signal) {
        const drawn = await tiles.ask('draw', { ...where, ...tile, sidePx }, { signal })
        if (drawn.ok) return drawn.value
        if (drawn.fault.kind === 'stopped') throw new DOMException('stopped', 'AbortError')
        throw new Error(`${photo.name ?? photo.file}: ${drawn.fault.detail}`)
      },
      async whole(maxSidePx) {
        const drawn = await tiles.ask('whole', { ...where, maxSidePx })
        if (drawn.ok) return drawn.value
        throw new Error(`${photo.name ?? photo.file}: ${drawn.fault.detail}`)
      },
    },
  }
}

/** A large TIFF just chosen, or one of the farm, as a copy that its spots are told on; nothing is kept. */
export async function seeLarge(
  of: readonly File[] | Photo,
  maxSidePx: number,
  signal: AbortSignal,
): Promise<Reply<SeenPhoto>> {
  const asked = 'id' in of ? at(of) : of
  if (asked === null) throw new Error('no farm is open')
  return tiles.ask('see', { of: asked, maxSidePx }, { signal })
}

/**
 * Copies a large TIFF to this device and records it, where its tags or the person's points put it. 'unplaced' where it
 * does not tell where it lies; null where it was stopped, refused, or its grid is asked for.
 */
export async function addLargePhoto(
  files: readonly File[],
  crs: string | null,
  by: { readonly place: PhotoPlace; readonly on: string | null } | null,
): Promise<{ readonly id: string; readonly changed: Changed } | 'unplaced' | null> {
  const farm = openFarm.value?.entry.id
  if (farm === undefined) return null
  largeFault.value = null
  largeGridWanted.value = null
  const name = files.find((file) => TIFF.test(file.name))!.name
  const id = crypto.randomUUID()
  const kept = await doing(`Copying ${name} to this device`, (signal, progress) =>
    tiles.ask('keep', { farm, id: madeHere(id), files, crs, isPlaced: by !== null }, { signal, progress }),
  )
  if (!kept.ok) {
    if (kept.fault.field === 'crs' && crs === null) largeGridWanted.value = { files, why: kept.fault.detail }
    else if (kept.fault.field === 'georeference' && crs === null) return 'unplaced'
    else if (kept.fault.kind !== 'stopped') largeFault.value = kept.fault
    return null
  }
  const recorded = await ask('recordPhoto', {
    ...kept.value,
    on: by?.on ?? null,
    crs,
    place: by?.place ?? null,
    at: on.value,
  })
  if (recorded.ok) return { id: recorded.value.photo.id, changed: recorded.value.changed }
  await tiles.ask('drop', { farm, id: kept.value.id })
  largeFault.value = recorded.fault
  return null
}

/** Makes the smaller copies that a photo lacks. False where it was stopped or could not be done. */
export async function quicken(photo: Photo): Promise<boolean> {
  const where = at(photo)
  if (where === null) return false
  largeFault.value = null
  const made = await doing(`Making smaller copies of ${photo.name ?? photo.file}`, (signal, progress) =>
    tiles.ask('quicken', where, { signal, progress }),
  )
  if (!made.ok && made.fault.kind !== 'stopped') largeFault.value = made.fault
  return made.ok
}

/** Asks what photos take up. */
export async function askPhotoRoom(): Promise<void> {
  const reply = await ask('photoRoom', {})
  if (reply.ok) photoRoom.value = reply.value
}

/** Removes the files of removed photos for good. */
export async function freeRemoved(): Promise<void> {
  const reply = await ask('freeRemovedPhotos', {})
  if (!reply.ok) largeFault.value = reply.fault
  await askPhotoRoom()
}

/** An id as others that are made here: a UUID of version 7 (RFC 9562), by the clock and chance. */
function madeHere(random: string): string {
  const ms = Date.now().toString(16).padStart(12, '0')
  return `${ms.slice(0, 8)}-${ms.slice(8)}-7${random.slice(15)}`
}

async function doing<T>(
  what: string,
  work: (signal: AbortSignal, progress: (told: { done: number; of: number }) => void) => Promise<T>,
): Promise<T> {
  const stop = new AbortController()
  const tell = (done: number, of: number) => {
    largeDoing.value = { what, done, of, stop: () => stop.abort() }
  }
  tell(0, 1)
  try {
    return await work(stop.signal, ({ done, of }) => tell(done, of))
  } finally {
    largeDoing.value = null
  }
}

/** How far a copy is, in words. */
export const copied = ({ done, of }: LargeDoing): string => `${showBytes(done)} of ${showBytes(of)}`
