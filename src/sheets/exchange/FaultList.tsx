import { useState } from 'preact/hooks'
import type { Fault } from '../../desk/door.ts'

const FEW = 12

/** What was left out or assumed of a file, each with where and why. */
export function FaultList({ title, faults }: { readonly title: string; readonly faults: readonly Fault[] }) {
  const [all, setAll] = useState(false)
  if (faults.length === 0) return null
  const shown = all ? faults : faults.slice(0, FEW)
  return (
    <section class="brought-faults" aria-label={title}>
      <h3>{title}</h3>
      <ul>
        {shown.map(({ file, record, field, reason }, i) => (
          <li key={i}>
            <span class="hint">{[file, record, field].filter(Boolean).join(', ')}</span> {reason}
          </li>
        ))}
      </ul>
      {shown.length < faults.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          Show all {faults.length.toLocaleString()}
        </button>
      )}
    </section>
  )
}
