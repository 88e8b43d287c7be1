import { signal } from '@preact/signals'
import type { Photo } from '../../../geo/model/photos.ts'
import type { Changed, DeskFault, PhotoFile } from '../../desk/door.ts'
import type { MapPhoto } from '../../map/farmMap.ts'
import { ask } from './door.ts'
import { forgetLargePhotos, tiledPicture } from './largePhotos.ts'
import { on } from './where.ts'

/** A photo on the map: its record, its picture once decoded, and how it is shown. */
export interface ShownPhoto {
  readonly photo: Photo
  readonly picture: Pick<MapPhoto, 'id' | 'corners' | 'picture'> | null
  readonly opacity: number
  /** Shown on the Ground sheet. */
  readonly visible: boolean
  /** Shown under the other sheets, too, where the plan is easier to read on paper. */
  readonly everywhere: boolean
  readonly fault: DeskFault | null
}

/** Longest side asked for: most devices draw textures of 4096 pixels. */
const MAX_SIDE_PX = 4096

export const photos = signal<readonly ShownPhoto[]>([])
/** Files whose place on the earth is not told by themselves: the person says the grid. */
export const gridWanted = signal<{ readonly files: readonly PhotoFile[]; readonly why: string } | null>(null)
export const photoFault = signal<DeskFault | null>(null)
export const photoDoing = signal<{ readonly what: string; readonly stop: () => void } | null>(null)

export function forgetPhotos(): void {
  photos.value = []
  gridWanted.value = null
  photoFault.value = null
  forgetLargePhotos()
}

/** Lists the farm's photos and has each decoded; how they were shown is kept. */
export async function askPhotos(): Promise<void> {
  const reply = await ask('listPhotos', {})
  if (!reply.ok) {
    photoFault.value = reply.fault
    return
  }
  const known = new Map(photos.value.map((shown) => [shown.photo.id, shown]))
  photos.value = reply.value.map((photo) => {
    const before = known.get(photo.id)
    return before
      ? { ...before, photo }
      : { photo, picture: null, opacity: 1, visible: true, everywhere: false, fault: null }
  })
  for (const shown of photos.value) if (!shown.picture && !shown.fault) await askPicture(shown.photo)
}

/** Has a photo's picture made anew, where what it is made from has changed. */
export async function refreshPhoto(id: string): Promise<void> {
  const shown = photos.value.find(({ photo }) => photo.id === id)
  if (shown) await askPicture(shown.photo)
}

async function askPicture(photo: Photo): Promise<void> {
  const { id } = photo
  const tiled = await tiledPicture(photo)
  if (tiled) return changePhoto(id, 'kind' in tiled ? { fault: tiled } : { picture: { id, ...tiled }, fault: null })
  const reply = await ask('photoPicture', { id, maxSidePx: MAX_SIDE_PX })
  changePhoto(id, reply.ok ? { picture: reply.value } : { fault: reply.fault })
}

export function changePhoto(id: string, to: Partial<Omit<ShownPhoto, 'photo'>>): void {
  photos.value = photos.value.map((shown) => (shown.photo.id === id ? { ...shown, ...to } : shown))
}

/** Opens a GeoTIFF, or a picture and its world file. Says what changed and the photo's id, or null where it could not. */
export async function addPhoto(
  files: readonly PhotoFile[],
  crs: string | null,
): Promise<{ readonly id: string; readonly changed: Changed } | null> {
  photoFault.value = null
  gridWanted.value = null
  const stop = new AbortController()
  photoDoing.value = { what: `Opening ${files.map(({ name }) => name).join(', ')}`, stop: () => stop.abort() }
  const reply = await ask('addPhoto', { files, on: null, crs, at: on.value }, { signal: stop.signal })
  photoDoing.value = null
  if (!reply.ok) {
    if (reply.fault.field === 'crs' && crs === null) gridWanted.value = { files, why: reply.fault.detail }
    else if (reply.fault.kind !== 'stopped') photoFault.value = reply.fault
    return null
  }
  await askPhotos()
  return { id: reply.value.photo.id, changed: reply.value.changed }
}
