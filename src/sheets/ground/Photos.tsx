import { Progress } from '../../ui/Progress.tsx'
import { showDay } from '../show/dates.ts'
import { askPhotoRoom, isLargeChoice } from '../state/largePhotos.ts'
import {
  addPhoto,
  askPhotos,
  changePhoto,
  gridWanted,
  photoDoing,
  photoFault,
  photos,
  type ShownPhoto,
} from '../state/photos.ts'
import { removeRecord, takeStep } from '../state/steps.ts'
import { Compare } from './Compare.tsx'
import { GridAsked } from './GridAsked.tsx'
import { LargePhotos, openLargePhoto, PhotoRoom, SlowPhoto } from './LargePhotos.tsx'
import { readFiles } from './readFiles.ts'
import { showPhoto } from './showPhoto.ts'

/** Aerial photos under the beds: opened, dimmed, hidden, removed. */
export function Photos() {
  return (
    <section aria-label="Aerial photos">
      <h2>Aerial photos</h2>
      {photos.value.length === 0 && (
        <p class="hint">
          None yet. A GeoTIFF is placed by itself; a picture wants its world file (.jgw, .pgw, .tfw, .wld) chosen
          together with it, and its .prj where there is one.
        </p>
      )}
      <ul class="photos">
        {photos.value.map((shown) => (
          <PhotoLine key={shown.photo.id} shown={shown} />
        ))}
      </ul>
      {photoDoing.value !== null && (
        <>
          <Progress doing={photoDoing.value.what} />
          <button type="button" class="quiet" onClick={photoDoing.value.stop}>
            Stop
          </button>
        </>
      )}
      {photoFault.value && (
        <p class="fault" role="alert">
          {photoFault.value.detail}
        </p>
      )}
      <LargePhotos />
      {gridWanted.value ? <GridAsked wanted={gridWanted.value} open={openPhoto} /> : <OpenPhoto />}
      <Compare />
      <PhotoRoom />
    </section>
  )
}

function OpenPhoto() {
  return (
    <label class="file">
      <span>Open an aerial photo</span>
      <input
        type="file"
        multiple
        accept=".tif,.tiff,.jpg,.jpeg,.png,.jgw,.pgw,.tfw,.jpgw,.pngw,.tifw,.wld,.prj"
        onChange={async (event) => {
          const input = event.currentTarget
          const chosen = [...(input.files ?? [])]
          if (isLargeChoice(chosen)) {
            input.value = ''
            return openLargePhoto(chosen, null)
          }
          const files = await readFiles(input.files)
          input.value = ''
          if (files.length > 0) await openPhoto(files, null)
        }}
      />
    </label>
  )
}

async function openPhoto(files: Parameters<typeof addPhoto>[0], crs: string | null): Promise<void> {
  const added = await addPhoto(files, crs)
  if (!added) return
  await takeStep(added.changed, added.changed.label)
  showPhoto(added.id)
  await askPhotoRoom()
}

function PhotoLine({ shown }: { readonly shown: ShownPhoto }) {
  const { photo, opacity, visible, fault } = shown
  const name = photo.name ?? photo.file
  return (
    <li>
      <p class="photo-name">
        {name}
        {photo.on && <span class="unit"> {showDay(photo.on)}</span>}
      </p>
      {photo.note && <p class="hint">{photo.note}</p>}
      {fault && <p class="fault">{fault.detail}</p>}
      <SlowPhoto photo={photo} />
      <div class="photo-deeds">
        <label class="tick">
          <input
            type="checkbox"
            checked={visible}
            onChange={(event) => changePhoto(photo.id, { visible: event.currentTarget.checked })}
          />
          shown<span class="unseen">: {name}</span>
        </label>
        <label class="tick">
          <input
            type="checkbox"
            checked={shown.everywhere}
            onChange={(event) => changePhoto(photo.id, { everywhere: event.currentTarget.checked })}
          />
          on every sheet<span class="unseen">: {name}</span>
        </label>
        <label class="slide">
          <span class="unseen">Strength of {name}</span>
          <input
            type="range"
            min="0"
            max="100"
            value={opacity * 100}
            onInput={(event) => changePhoto(photo.id, { opacity: Number(event.currentTarget.value) / 100 })}
          />
          <span class="slide-value">{Math.round(opacity * 100)} %</span>
        </label>
        <button
          type="button"
          class="quiet"
          onClick={async () => {
            const reply = await removeRecord('photos', photo.id, `Remove photo ${name}`)
            if (reply.ok) await askPhotos().then(askPhotoRoom)
            else photoFault.value = reply.fault
          }}
        >
          Remove<span class="unseen"> {name}</span>
        </button>
      </div>
    </li>
  )
}
