import { useState } from 'preact/hooks'
import type { PickedFor } from '../../desk/door.ts'
import { belongTo, households } from './households.ts'

/** Who picks for which of those who have it, so that both are settled as one. */
export function WhoBelongs({ lines }: { readonly lines: readonly PickedFor[] }) {
  const [fault, setFault] = useState<string | null>(null)
  const named = (names: readonly (string | null)[]) => [...new Set(names.filter((name) => name !== null))].sort()
  const had = named([...lines.map(({ to }) => to), ...households.value.values()])
  const people = named([...lines.map(({ picker }) => picker), ...households.value.keys()])
  if (had.length === 0 || people.length === 0) return null
  return (
    <details class="more">
      <summary>Who belongs to which household</summary>
      <ul class="who-belongs">
        {people.map((person) => (
          <li key={person}>
            <label>
              <span>{person}</span>
              <select
                value={households.value.get(person) ?? ''}
                onChange={(event) => {
                  const chosen = event.currentTarget.value
                  void belongTo(person, chosen === '' ? null : chosen).then((told) => setFault(told?.detail ?? null))
                }}
              >
                <option value="">a household of their own</option>
                {had
                  .filter((name) => name !== person)
                  .map((name) => (
                    <option key={name} value={name}>
                      {name}
                    </option>
                  ))}
              </select>
            </label>
          </li>
        ))}
      </ul>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
    </details>
  )
}
