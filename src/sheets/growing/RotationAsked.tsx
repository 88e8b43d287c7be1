import type { RotationReading } from '../../desk/door.ts'
import { ROTATION_WEIGHTS, type RotationWeight } from '../../desk/siting/sitingDoor.ts'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { changeRotation, rotationDraft, rotationFaults } from '../state/rotation.ts'

const WEIGHT_WORDS: Readonly<Record<RotationWeight, string>> = {
  juglone: 'Sensitive crops near walnuts',
  canopy: 'Standing beneath a canopy',
  support: 'Climbing where no permanent support stands',
}

/** How far ahead, after how many years each family returns, what weighs how much, and which beds are in it. */
export function RotationAsked({ reading }: { readonly reading: RotationReading }) {
  const draft = rotationDraft.value
  const faults = rotationFaults.value
  const own = reading.beds.filter(({ id, left }) => left !== null && !reading.asked.leave.includes(id))
  const free = reading.beds.filter(({ id, left }) => left === null || reading.asked.leave.includes(id))
  return (
    <>
      <NumberEntry
        label="Years ahead"
        fault={faults.years}
        hint="From 1 to 8."
        whole
        value={draft.years}
        onType={(text) => changeRotation({ years: text })}
      />
      <details class="more" open={Object.keys(faults).some((field) => field.startsWith('return_years'))}>
        <summary>After how many years each family returns</summary>
        {reading.returns.map(({ family, years, source }) => (
          <NumberEntry
            key={family}
            label={family}
            fault={faults[`return_years.${family}`]}
            hint={`${years}: ${source}.`}
            whole
            value={draft.returns[family] ?? String(years)}
            onType={(text) => changeRotation({ returns: { ...draft.returns, [family]: text } })}
          />
        ))}
      </details>
      <details class="more" open={Object.keys(faults).some((field) => field.startsWith('weights'))}>
        <summary>What weighs how much</summary>
        <p class="hint">
          The rotation with the least of these together is looked for; 0 leaves one out. The values to start from are
          our assumption. Evidence on juglone is disputed.
        </p>
        {(Object.keys(ROTATION_WEIGHTS) as RotationWeight[]).map((name) => (
          <NumberEntry
            key={name}
            label={WEIGHT_WORDS[name]}
            fault={faults[`weights.${name}`]}
            hint={`Points ${ROTATION_WEIGHTS[name].unit}. To start from: ${ROTATION_WEIGHTS[name].usual}.`}
            value={draft.weights[name]}
            onType={(text) => changeRotation({ weights: { ...draft.weights, [name]: text } })}
          />
        ))}
      </details>
      <details class="more">
        <summary>
          Beds in it: {free.length - draft.leave.length} of {reading.beds.length}
        </summary>
        {own.length > 0 && (
          <ul class="notes">
            {own.map(({ id, name, left }) => (
              <li key={id}>
                {name} is left out{left!.until === null ? '' : ` until ${left!.until}`}: {left!.why}
              </li>
            ))}
          </ul>
        )}
        <ul class="rotation-beds">
          {free.map(({ id, name }) => (
            <li key={id}>
              <label class="tick">
                <input
                  type="checkbox"
                  checked={!draft.leave.includes(id)}
                  onChange={(event) =>
                    changeRotation({
                      leave: event.currentTarget.checked
                        ? draft.leave.filter((bed) => bed !== id)
                        : [...draft.leave, id],
                    })
                  }
                />
                <span>{name}</span>
              </label>
            </li>
          ))}
        </ul>
      </details>
    </>
  )
}
