import type { RotationReading } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { changeRotation, rotationDraft, rotationFaults } from '../state/rotation.ts'

/** How far ahead, after how many years each family returns, and which beds are in it. */
export function RotationAsked({ reading }: { readonly reading: RotationReading }) {
  const draft = rotationDraft.value
  const faults = rotationFaults.value
  const own = reading.beds.filter(({ id, left }) => left !== null && !reading.asked.leave.includes(id))
  const free = reading.beds.filter(({ id, left }) => left === null || reading.asked.leave.includes(id))
  return (
    <>
      <Entry label="Years ahead" fault={faults.years} hint="From 1 to 8.">
        {(names) => (
          <input
            {...names}
            type="text"
            inputMode="numeric"
            autocomplete="off"
            value={draft.years}
            onInput={(event) => changeRotation({ years: event.currentTarget.value })}
          />
        )}
      </Entry>
      <details class="more" open={Object.keys(faults).some((field) => field.startsWith('return_years'))}>
        <summary>After how many years each family returns</summary>
        {reading.returns.map(({ family, years, source }) => (
          <Entry key={family} label={family} fault={faults[`return_years.${family}`]} hint={`${years}: ${source}.`}>
            {(names) => (
              <input
                {...names}
                type="text"
                inputMode="numeric"
                autocomplete="off"
                value={draft.returns[family] ?? String(years)}
                onInput={(event) =>
                  changeRotation({ returns: { ...draft.returns, [family]: event.currentTarget.value } })
                }
              />
            )}
          </Entry>
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
