import { accuracyFigure, lengthFigure, showNumber, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { bedHere, choices, choosePlace, entry, faults, nearestM } from './entry.ts'
import { isStoodBy, type PickPlace, placeKey, sayPlace } from './pickPlace.ts'
import { follow, following, position, positionFault } from './position.ts'

/** Where the pick is made: what the device stands by, what was tapped, or what was picked last. */
export function PlaceChoices() {
  const { places } = choices.value
  const chosen = entry.value.place
  const shown = chosen && !places.some((one) => placeKey(one) === placeKey(chosen)) ? [chosen, ...places] : places
  return (
    <fieldset class="places">
      <legend>{words()}</legend>
      <div class="place-row">
        {shown.map((place) => {
          const { where, what } = sayPlace(place)
          return (
            <button
              key={placeKey(place)}
              type="button"
              class="place"
              aria-pressed={chosen !== null && placeKey(place) === placeKey(chosen)}
              onClick={() => choosePlace(place)}
            >
              <span class="place-where">{where}</span>
              <span class="place-what">
                {what}
                {distanceOf(place)}
              </span>
            </button>
          )
        })}
        {!following.value && (
          <button type="button" class="place find-me" onClick={follow}>
            <span class="place-where">Where am I?</span>
            <span class="place-what">by this device</span>
          </button>
        )}
      </div>
      {faults.value.place && (
        <p class="fault" role="alert">
          {faults.value.place}
        </p>
      )}
    </fieldset>
  )
}

function distanceOf(place: PickPlace): string {
  if (place.is !== 'planting' || place.distanceM === null) return ''
  return `, ${told(units.value === 'us' ? lengthFigure(place.distanceM, 'us') : { value: showNumber(place.distanceM, place.distanceM < 10 ? 1 : 0), unit: 'm' })} off`
}

/** Nothing so far away is what the person stands by. */
const FAR_M = 100

function words(): string {
  const { by } = choices.value
  if (by === 'tap') return 'Where you tapped'
  if (entry.value.correcting) return 'Where it was picked'
  if (by === 'table') return 'Where'
  if (positionFault.value !== null) return positionFault.value
  if (!following.value)
    return by === 'last' && choices.value.places.length > 0
      ? 'Where you picked last; or tap the map'
      : 'Tap the map where you pick'
  const at = position.value
  if (!at) return 'Finding where you are'
  const within = `within ${told(accuracyFigure(at.accuracyM, units.value))}`
  const nearest = nearestM.value
  if (nearest !== null && nearest > FAR_M)
    return `You are ${told(accuracyFigure(nearest, units.value))} from what grows nearest, ${within}`
  const { place } = entry.value
  if (!place) return `You stand among these, ${within}: which is it?`
  return isStoodBy(place, at, bedHere.value)
    ? `You stand by, ${within}`
    : `Where you chose, though you stand elsewhere, ${within}`
}
