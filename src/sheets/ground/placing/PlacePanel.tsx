import { Choice } from '../../../ui/Choice.tsx'
import { Entry } from '../../../ui/Entry.tsx'
import { narrow } from '../../frame/narrow.ts'
import { farmMap } from '../../state/mapHandle.ts'
import { stopPlacing } from '../../state/placing.ts'
import { hintOf } from './hintOf.ts'
import { keepPlacing } from './keepPlacing.ts'
import { Outcome } from './Outcome.tsx'
import { PlaceGuess } from './PlaceGuess.tsx'
import { PlacePoints } from './PlacePoints.tsx'
import { PlaceTapes } from './PlaceTapes.tsx'
import { seeAll } from './preview.ts'
import { amissIn } from './readPlacing.ts'
import { changePlacing, keepFault, outcome, placing, read, strength } from './state.ts'

/** Beside the picture and the map: what is told of the picture, how well it fits, and how to be done. */
export function PlacePanel() {
  const now = placing.value
  if (!now) return null
  const found = outcome.value
  const isFound = found !== null && typeof found !== 'string'
  const amiss = read.value ? amissIn(now.marks, read.value.faults) : []
  return (
    <section class="placing" aria-label={`Placing ${now.name}`}>
      {narrow.value ? <h2>Placing {now.name}</h2> : <h1>Placing {now.name}</h1>}
      <Outcome />
      <p class="hint" role="status">
        {hintOf(now)}
      </p>
      <PlacePoints />
      <PlaceTapes />
      <h2 class="place-head">The fit</h2>
      <Choice
        label="The fit"
        value={now.kind}
        onChange={(kind) => changePlacing({ kind })}
        options={[
          { value: 'similarity', words: 'Turn, scale' },
          { value: 'affine', words: 'Affine' },
          { value: 'projective', words: 'Perspective' },
        ]}
      />
      <p class="hint">{FIT_WORDS[now.kind]}</p>
      <PlaceGuess />
      <Entry label="Day it was taken" hint="May be left empty.">
        {(names) => (
          <input
            {...names}
            type="date"
            value={now.on}
            onChange={(event) => changePlacing({ on: event.currentTarget.value })}
          />
        )}
      </Entry>
      <div class="photo-deeds">
        <label class="slide">
          <span>Strength</span>
          <input
            type="range"
            min="0"
            max="100"
            value={strength.value * 100}
            onInput={(event) => {
              strength.value = Number(event.currentTarget.value) / 100
            }}
          />
          <span class="slide-value">{Math.round(strength.value * 100)} %</span>
        </label>
        <button
          type="button"
          disabled={!isFound || !farmMap.value}
          onClick={() => isFound && seeAll(found.placed.corners)}
        >
          See all of it
        </button>
      </div>
      {keepFault.value && (
        <p class="fault" role="alert">
          {keepFault.value.detail}
        </p>
      )}
      {isFound && amiss.length > 0 && (
        <p class="fault" role="status">
          To be put right, or emptied, before it is kept: {amiss.join(', ')}.
        </p>
      )}
      <p class="deeds">
        <button
          type="button"
          class="first-deed"
          disabled={!isFound || amiss.length > 0}
          onClick={() => void keepPlacing()}
        >
          Keep this photo
        </button>
        <button type="button" onClick={stopPlacing}>
          Give up
        </button>
      </p>
    </section>
  )
}

const FIT_WORDS = {
  similarity:
    'For a picture taken straight down. Wants 2 points, or a taped distance; a taped distance sets the scale by itself, and points then only turn and shift.',
  affine: 'Sheared besides. Wants 3 points; taped distances only check it.',
  projective:
    'For a picture taken at a slant, of level ground. Wants 4 points, best well spread; taped distances only check it.',
} as const
