import { lengthFigure, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'
import { lengthUnit } from '../formFields.ts'
import type { TypedTape } from './readPlacing.ts'
import { addTape, changePlacing, outcome, placing, read } from './state.ts'

/** Taped distances between points of the picture. */
export function PlaceTapes() {
  const now = placing.value
  const spots = now?.marks.filter(({ spot }) => spot !== null).length ?? 0
  if (!now || (spots < 2 && now.tapes.length === 0)) return null
  return (
    <section aria-label="Taped distances">
      {now.tapes.length > 0 && <h2 class="place-head">Taped distances</h2>}
      <ul class="place-points">
        {now.tapes.map((tape) => (
          <TapeLine key={tape.id} tape={tape} />
        ))}
      </ul>
      <button type="button" disabled={spots < 2} onClick={addTape}>
        Add a taped distance
      </button>
    </section>
  )
}

function TapeLine({ tape }: { readonly tape: TypedTape }) {
  const now = placing.value!
  const found = outcome.value
  const index = read.value?.tapeIds.indexOf(tape.id) ?? -1
  const offM = found && typeof found !== 'string' ? found.fit.tapesOffM[index] : undefined
  const fault = read.value?.faults.tapes[tape.id]
  const change = (to: Partial<TypedTape>) =>
    changePlacing({ tapes: now.tapes.map((one) => (one.id === tape.id ? { ...one, ...to } : one)) })
  return (
    <li>
      <div class="place-tape">
        <End label="From point" value={tape.from} onChange={(from) => change({ from })} />
        <End label="to point" value={tape.to} onChange={(to) => change({ to })} />
        <label>
          <span class="unseen">Taped distance, </span>
          {lengthUnit(units.value)}
          <input
            type="text"
            inputMode="decimal"
            autocomplete="off"
            aria-invalid={fault !== undefined}
            value={tape.typed}
            onInput={(event) => change({ typed: event.currentTarget.value })}
          />
        </label>
        <button
          type="button"
          class="quiet"
          onClick={() => changePlacing({ tapes: now.tapes.filter(({ id }) => id !== tape.id) })}
        >
          Remove<span class="unseen"> this taped distance</span>
        </button>
      </div>
      <div class="place-errors">
        {fault !== undefined && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        {offM !== undefined && (
          <p>
            {Math.abs(offM) < 0.005
              ? 'as in the placed picture'
              : `${told(lengthFigure(Math.abs(offM), units.value))} ${offM < 0 ? 'shorter' : 'longer'} in the placed picture`}
          </p>
        )}
      </div>
    </li>
  )
}

function End({
  label,
  value,
  onChange,
}: {
  readonly label: string
  readonly value: string
  readonly onChange: (id: string) => void
}) {
  return (
    <label>
      {label}
      <select value={value} onChange={(event) => onChange(event.currentTarget.value)}>
        {placing.value!.marks.map(
          ({ id, spot }, i) =>
            spot && (
              <option key={id} value={id}>
                {i + 1}
              </option>
            ),
        )}
      </select>
    </label>
  )
}
