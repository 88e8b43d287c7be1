import { useEffect } from 'preact/hooks'
import type { Photo } from '../../../geo/model/photos.ts'
import { Progress } from '../../ui/Progress.tsx'
import { showBytes } from '../show/bytes.ts'
import {
  addLargePhoto,
  askPhotoRoom,
  copied,
  freeRemoved,
  largeDoing,
  largeFault,
  largeGridWanted,
  photoRoom,
  slowPhotos,
} from '../state/largePhotos.ts'
import { askPhotos } from '../state/photos.ts'
import { takeStep } from '../state/steps.ts'
import { GridAsked } from './GridAsked.tsx'
import { startPlacing } from './placing/startPlacing.ts'
import { quickenAdded, quickenNow } from './quickenNow.ts'
import { showPhoto } from './showPhoto.ts'

/** Opens a large GeoTIFF: copied, shown, and given smaller copies where it has none. */
export async function openLargePhoto(files: readonly File[], crs: string | null): Promise<void> {
  const added = await addLargePhoto(files, crs, null)
  if (added === 'unplaced') return startPlacing({ large: files })
  if (!added) return
  takeStep(added.changed, added.changed.label)
  await askPhotos()
  showPhoto(added.id)
  await quickenAdded(added.id)
}

/** Long work on large photos, its faults, and what all photos take up on this device. */
export function LargePhotos() {
  const doing = largeDoing.value
  return (
    <>
      {doing && (
        <>
          <Progress doing={doing.what} done={doing.done} of={doing.of} />
          {doing.of > 1 && doing.what.startsWith('Copying') && <p class="hint">{copied(doing)}</p>}
          <button type="button" class="quiet" onClick={doing.stop}>
            Stop
          </button>
        </>
      )}
      {largeFault.value && (
        <p class="fault" role="alert">
          {largeFault.value.detail}
        </p>
      )}
      {largeGridWanted.value && <GridAsked wanted={largeGridWanted.value} open={openLargePhoto} />}
    </>
  )
}

/** Said beneath a photo that is slow to look at, with what makes it quick. */
export function SlowPhoto({ photo }: { readonly photo: Photo }) {
  const why = slowPhotos.value.get(photo.id)
  if (why === undefined || largeDoing.value) return null
  return (
    <p class="hint">
      {why}{' '}
      <button type="button" class="quiet" onClick={() => void quickenNow(photo)}>
        Make smaller copies<span class="unseen"> of {photo.name ?? photo.file}</span>
      </button>
    </p>
  )
}

/** What photos take up, and the files of removed ones, which can be freed for good. */
export function PhotoRoom() {
  useEffect(() => void askPhotoRoom(), [])
  const room = photoRoom.value
  if (!room || room.photos === 0) return null
  return (
    <div class="photo-room">
      <p class="hint">
        Photos take {showBytes(room.photos)} on this device
        {room.free !== null && `; the browser gives some ${showBytes(room.free)} more`}.
      </p>
      {room.removed > 0 && (
        <p class="hint">
          {showBytes(room.removedBytes)} of it{' '}
          {room.removed === 1 ? 'is a removed photo' : `are ${room.removed} removed photos`}, kept so that the removal
          can be undone.{' '}
          <button type="button" class="quiet" onClick={() => void freeRemoved()}>
            Free that room for good
          </button>
        </p>
      )}
    </div>
  )
}
