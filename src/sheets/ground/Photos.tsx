import type { Photo } from '../../../geo/model/photos.ts'
import { fewestPoints } from '../../../geo/photo/controlPoints.ts'
import type { Edit } from '../../desk/door.ts'
import { Progress } from '../../ui/Progress.tsx'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { tooFarKm } from '../show/tooFar.ts'
import { openFarm, units } from '../state/farm.ts'
import { askPhotoRoom } from '../state/largePhotos.ts'
import {
  askPhotos,
  gridWanted,
  letGoOf,
  type PhotoLook,
  photoDoing,
  photoEdit,
  photoFault,
  photos,
  pileEdits,
  type ShownPhoto,
  showOtherwise,
} from '../state/photos.ts'
import { doEdits, removeRecord } from '../state/steps.ts'
import { Compare } from './Compare.tsx'
import { GridAsked } from './GridAsked.tsx'
import { LargePhotos, PhotoRoom, SlowPhoto } from './LargePhotos.tsx'
import { OpenPhoto, openPhoto } from './OpenPhoto.tsx'
import { startPlacing } from './placing/startPlacing.ts'
import { showPhoto } from './showPhoto.ts'

/** Aerial photos under the beds: opened, dimmed, hidden, removed. */
export function Photos() {
  return (
    <section aria-label="Aerial photos">
      <h2>Aerial photos</h2>
      {photos.value.length === 0 && (
        <p class="hint">
          None yet. Any picture from above will do. A GeoTIFF, or a picture chosen together with its world file (.jgw,
          .pgw, .tfw, .wld) and .prj, is placed by itself; any other you place by points or a taped distance.
        </p>
      )}
      <ul class="photos">
        {photos.value.toReversed().map((shown) => (
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

function PhotoLine({ shown }: { readonly shown: ShownPhoto }) {
  const { photo, opacity, visible, everywhere, fault } = shown
  const name = photo.name ?? photo.file
  const keep = async (label: string, edits: readonly Edit[], look: Partial<PhotoLook> = {}) => {
    const reply = edits.length > 0 ? await doEdits(label, edits) : null
    letGoOf(photo.id, look)
    if (reply && !reply.ok) {
      photoFault.value = reply.fault
      await askPhotos()
    }
  }
  const at = photos.value.indexOf(shown)
  const farKm = farFromFarmKm(photo)
  return (
    <li>
      <p class="photo-name">{name}</p>
      {photo.note && <p class="hint">{photo.note}</p>}
      {photo.placed_by && <p class="hint">{placedWords(photo)}</p>}
      {fault && <p class="fault">{fault.detail}</p>}
      {farKm !== null && (
        <p class="fault">
          It lies {showCount(farKm)} km from the farm’s middle, where nothing of the farm can be drawn.
        </p>
      )}
      <SlowPhoto photo={photo} />
      <div class="photo-deeds">
        <label class="photo-day">
          <span>
            Taken<span class="unseen">: {name}</span>
          </span>
          <input
            type="date"
            value={photo.on ?? ''}
            onChange={(event) => {
              const on = event.currentTarget.value || null
              if (on !== photo.on) void keep(`Day of photo ${name}`, [photoEdit(photo.id, { on })])
            }}
          />
        </label>
        <label class="tick">
          <input
            type="checkbox"
            checked={visible}
            onChange={(event) => {
              const { checked } = event.currentTarget
              const look = { visible: checked }
              showOtherwise(photo.id, look)
              void keep(`${checked ? 'Show' : 'Hide'} photo ${name}`, [photoEdit(photo.id, { shown: checked })], look)
            }}
          />
          shown<span class="unseen">: {name}</span>
        </label>
        <label class="tick">
          <input
            type="checkbox"
            checked={everywhere}
            onChange={(event) => {
              const { checked } = event.currentTarget
              const look = { everywhere: checked }
              showOtherwise(photo.id, look)
              const where = checked ? 'every sheet' : 'the Ground sheet'
              void keep(`Photo ${name} on ${where}`, [photoEdit(photo.id, { on_every_sheet: checked })], look)
            }}
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
            onInput={(event) => showOtherwise(photo.id, { opacity: Number(event.currentTarget.value) / 100 })}
            onChange={(event) => {
              const percent = Number(event.currentTarget.value)
              const opacity = percent / 100
              void keep(`Photo ${name} at ${percent} %`, [photoEdit(photo.id, { opacity })], { opacity })
            }}
          />
          <span class="slide-value">{Math.round(opacity * 100)} %</span>
        </label>
        {photos.value.length > 1 && (
          <>
            <button
              type="button"
              class="quiet"
              disabled={at === photos.value.length - 1}
              onClick={() => void keep(`Photo ${name} higher`, pileEdits(photo.id, 1))}
            >
              Higher<span class="unseen">: {name}</span>
            </button>
            <button
              type="button"
              class="quiet"
              disabled={at === 0}
              onClick={() => void keep(`Photo ${name} lower`, pileEdits(photo.id, -1))}
            >
              Lower<span class="unseen">: {name}</span>
            </button>
          </>
        )}
        <button type="button" class="quiet" onClick={() => showPhoto(photo.id)}>
          Find<span class="unseen"> {name}</span>
        </button>
        <button type="button" class="quiet" onClick={() => void startPlacing(photo)}>
          Place anew<span class="unseen">: {name}</span>
        </button>
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

/** By how many points a photo lies where it does, and how well. */
function placedWords({ control_points, placed_by, residuals }: Photo): string {
  const points = control_points?.length ?? 0
  const tapes = placed_by?.tapes.length ?? 0
  const by = [
    ...(points > 0 ? [`${points} ${points === 1 ? 'point' : 'points'}`] : []),
    ...(tapes > 0 ? [tapes === 1 ? 'a taped distance' : `${tapes} taped distances`] : []),
  ]
  const mean = rmseOf(residuals)
  const isChecked = placed_by !== null && points > fewestPoints[placed_by.fit]
  const errors = isChecked && mean !== null ? `, ${told(lengthFigure(mean, units.value))} root mean square error` : ''
  return by.length > 0 ? `Placed by ${by.join(' and ')}${errors}.` : 'Placed roughly.'
}

const rmseOf = (residuals: unknown): number | null =>
  typeof residuals === 'object' && residuals !== null && 'rmse_m' in residuals && typeof residuals.rmse_m === 'number'
    ? residuals.rmse_m
    : null

/** How far a photo lies from the farm, where that is too far to draw on it. */
function farFromFarmKm({ corners }: Photo): number | null {
  const origin = openFarm.value?.origin
  const at = corners?.[0]
  return origin && at ? tooFarKm(origin, [at[0], at[1]]) : null
}
