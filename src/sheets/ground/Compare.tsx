import { showDay } from '../show/dates.ts'
import type { ShownPhoto } from '../state/photos.ts'
import { comparable, compared, compareOn, startComparing, stopComparing } from '../state/swipe.ts'

/** A photo by its day, and by its name where the day is not known or not enough. */
export const photoTitle = ({ photo }: ShownPhoto): string => {
  const name = photo.name ?? photo.file
  return photo.on ? `${showDay(photo.on)}, ${name}` : name
}

/** Which two photos stand either side of the line on the map. */
export function Compare() {
  const now = compared.value
  if (!now)
    return comparable.value.length < 2 ? null : (
      <button type="button" class="quiet compare-start" onClick={startComparing}>
        Compare two of them
      </button>
    )
  return (
    <fieldset class="compare">
      <legend>Compared on the map</legend>
      {(['left', 'right'] as const).map((side) => (
        <label key={side}>
          <span>{side === 'left' ? 'Left of the line' : 'Right of the line'}</span>
          <select value={now[side].photo.id} onChange={(event) => compareOn(side, event.currentTarget.value)}>
            {comparable.value.map((shown) => (
              <option key={shown.photo.id} value={shown.photo.id}>
                {photoTitle(shown)}
              </option>
            ))}
          </select>
        </label>
      ))}
      <button type="button" class="quiet" onClick={stopComparing}>
        Stop comparing
      </button>
    </fieldset>
  )
}
