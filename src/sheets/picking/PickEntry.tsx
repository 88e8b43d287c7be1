import { useSignalEffect } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import { MASS_UNITS } from '../../../geo/model/weigh.ts'
import { farmMap } from '../state/mapHandle.ts'
import { askHabits, pickingStale } from '../state/picking.ts'
import { Containers } from './Containers.tsx'
import { dropCorrection, REASONS } from './correct.ts'
import { entry, faults, keptWords, offerLast, pickDay, seekNear, tell, unitTold } from './entry.ts'
import { keepPick, massTold, sayWeight, undoKept } from './keepPick.ts'
import { DECIMAL, NumberPad } from './NumberPad.tsx'
import { afterKey, asQuantity } from './numberPad.ts'
import { OtherDay } from './OtherDay.tsx'
import { OneOf, PickDetails } from './PickDetails.tsx'
import { PlaceChoices } from './PlaceChoices.tsx'
import { cropNameOf } from './pickPlace.ts'
import { followIfAllowed, following, position, stopFollowing } from './position.ts'

/** Near enough to tell one bed from the next. */
const NEAR_ZOOM = 19.5

/** A pick is entered in three taps: where, how much, done. */
export function PickEntry() {
  const [weights, setWeights] = useState(false)
  /** The map goes to where the device is once; after that it is the person's to move. */
  const looked = useRef(false)
  const form = useRef<HTMLFormElement>(null)
  useEffect(() => {
    void followIfAllowed()
    return stopFollowing
  }, [])
  useSignalEffect(() => {
    pickingStale.value
    void askHabits(pickDay.value).then(offerLast)
  })
  useSignalEffect(() => {
    if (position.value) void seekNear(position.value)
  })
  useSignalEffect(() => {
    const map = farmMap.value
    if (!map || !position.value || !following.value || looked.current) return
    looked.current = true
    map.setView({ centre: position.value.at, zoom: NEAR_ZOOM, bearingDeg: map.getView().bearingDeg })
  })
  useSignalEffect(() => {
    if (Object.keys(faults.value).length > 0)
      setTimeout(() => form.current?.querySelector('.fault')?.scrollIntoView({ block: 'nearest' }))
  })
  const { correcting } = entry.value
  return (
    <form
      ref={form}
      class="pick-entry"
      aria-label={correcting ? 'Put a pick right' : 'Enter a pick'}
      onSubmit={(event) => {
        event.preventDefault()
        void keepPick()
      }}
    >
      {correcting && <p class="pick-was">Putting right: {correcting.was}</p>}
      {!correcting && <OtherDay day={pickDay.value} onToday={() => tell({ day: null })} />}
      <PlaceChoices />
      <HowMuch />
      <NumberPad onMore={() => setWeights(true)} />
      <PickDetails />
      {correcting && (
        <div class="pick-reason">
          <OneOf
            label="Why it is put right"
            known={REASONS.changed}
            value={entry.value.reason === '' ? null : entry.value.reason}
            onTell={(reason) => tell({ reason: reason ?? '' })}
          />
          {faults.value.reason && (
            <p class="fault" role="alert">
              {faults.value.reason}
            </p>
          )}
        </div>
      )}
      {faults.value.other && (
        <p class="fault" role="alert">
          {faults.value.other}
        </p>
      )}
      <div class="pick-deeds">
        {correcting && (
          <button type="button" onClick={dropCorrection}>
            Leave it as it was
          </button>
        )}
        <button type="submit" class="first-deed">
          {correcting ? 'Keep it so' : 'Keep this pick'}
        </button>
      </div>
      {weights && <Containers onClose={() => setWeights(false)} />}
    </form>
  )
}

/** The figure that is typed, and what it weighs. */
function HowMuch() {
  const { typed, place } = entry.value
  const unit = unitTold.value
  const mass = massTold(typed, unit?.kg ?? null)
  const crop = cropNameOf(place)
  const isMass = unit !== null && MASS_UNITS.has(unit.unit)
  return (
    <div class="how-much">
      <input
        type="text"
        class="how-many"
        inputMode="none"
        autocomplete="off"
        aria-label="How much"
        placeholder="0"
        aria-invalid={Boolean(faults.value.quantity)}
        value={typed.replace('.', DECIMAL)}
        onInput={(event) => {
          const read = asQuantity(event.currentTarget.value)
          event.currentTarget.value = read.replace('.', DECIMAL)
          tell({ typed: read })
        }}
      />
      <div class="how-heavy">
        {keptWords.value !== null && (
          <p class="pick-kept" role="status">
            Kept: {keptWords.value}
          </p>
        )}
        <p class="how-unit" hidden={keptWords.value !== null}>
          {unit?.unit ?? 'no unit'}
          {mass && !isMass && (
            <strong>
              {' '}
              = {mass.value} {mass.unit}
            </strong>
          )}
        </p>
        {unit?.kg != null && !isMass && keptWords.value === null && (
          <p class="how-source">
            {sayWeight(unit.kg)} each{crop ? ` of ${crop.toLowerCase()}` : ''}
            {unit.source ? `: ${unit.source}` : ': source not told'}
          </p>
        )}
        {(faults.value.quantity ?? faults.value.unit) && (
          <p class="fault" role="alert">
            {faults.value.quantity ?? faults.value.unit}
          </p>
        )}
      </div>
      {keptWords.value !== null ? (
        <button type="button" class="undo-kept" onClick={() => void undoKept()}>
          Undo
        </button>
      ) : (
        <button
          type="button"
          class="take-back"
          disabled={typed === ''}
          aria-label="Take the last digit away"
          onClick={() => tell({ typed: afterKey(typed, '⌫') })}
        >
          ⌫
        </button>
      )}
    </div>
  )
}
