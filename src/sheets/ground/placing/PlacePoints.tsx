import { useId } from 'preact/hooks'
import { TextOnceLeft } from '../../../ui/TextOnceLeft.tsx'
import { lengthFigure, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'
import { badMark } from './badMark.ts'
import type { Mark } from './readPlacing.ts'
import { chosenMark, outcome, placing, read, removeMark, typePlace } from './state.ts'

/** The points, each with its place to type and its errors. */
export function PlacePoints() {
  const marks = placing.value?.marks ?? []
  if (marks.length === 0) return null
  return (
    <section aria-label="Points">
      <h2 class="place-head">Points</h2>
      <ol class="place-points">
        {marks.map((mark, i) => (
          <PointLine key={mark.id} mark={mark} number={i + 1} />
        ))}
      </ol>
      <p class="hint">
        Places: 46.3374, 15.6412 or 46°20′15″N 15°38′28″E; or metres east and north of the farm’s middle: 12.5 m, 30 m.
      </p>
    </section>
  )
}

function PointLine({ mark, number }: { readonly mark: Mark; readonly number: number }) {
  const id = useId()
  const now = outcome.value
  const index = read.value?.pointIds.indexOf(mark.id) ?? -1
  const error = now && typeof now !== 'string' && now.fit.isChecked ? now.fit.points[index] : undefined
  const length = (m: number) => told(lengthFigure(m, units.value))
  const isBad = badMark.value === mark.id
  return (
    <li class={`${chosenMark.value === mark.id ? 'chosen' : ''}${isBad ? ' bad' : ''}`}>
      <div class="place-line">
        <span class="place-number" aria-hidden="true">
          {number}
        </span>
        <label class="unseen" for={id}>
          Place of point {number}
        </label>
        <TextOnceLeft
          id={id}
          placeholder="on the map, or type it"
          value={mark.typed}
          aria-invalid={mark.fault !== null}
          aria-describedby={`${id}-told`}
          onFocus={() => {
            chosenMark.value = mark.id
          }}
          onTold={(text) => typePlace(mark.id, text)}
        />
        <button type="button" class="quiet" onClick={() => removeMark(mark.id)}>
          Remove<span class="unseen"> point {number}</span>
        </button>
      </div>
      <div id={`${id}-told`} class="place-errors">
        {mark.fault !== null && (
          <p class="fault" role="alert">
            {mark.fault}
          </p>
        )}
        {mark.spot === null && <p>no spot in the picture yet</p>}
        {error && (
          <p class={isBad ? 'amiss' : ''}>
            {length(error.offM)} off
            {error.leftOutM !== null && `, ${length(error.leftOutM)} by the others`}
          </p>
        )}
      </div>
    </li>
  )
}
