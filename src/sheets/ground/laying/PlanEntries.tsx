import { Choice } from '../../../ui/Choice.tsx'
import { Entry } from '../../../ui/Entry.tsx'
import { units } from '../../state/farm.ts'
import { lengthUnit } from '../formFields.ts'
import { type PlanEntry, type PlanFaults, type PlanTyped, typePlan } from './planTyped.ts'

interface Props {
  readonly typed: PlanTyped
  readonly faults: PlanFaults
  readonly entry: PlanEntry
  readonly label: string
  readonly hint?: string
}

/** A length, in the person's unit. */
export function LengthEntry(props: Props) {
  return <TypedEntry {...props} label={`${props.label}, ${lengthUnit(units.value)}`} />
}

/** A number or word. */
export function TypedEntry({ typed, faults, entry, label, hint, plain }: Props & { readonly plain?: boolean }) {
  return (
    <Entry label={label} hint={hint} fault={faults[entry]}>
      {(names) => (
        <input
          {...names}
          type="text"
          name={entry}
          autocomplete="off"
          {...(!plain && { inputMode: 'decimal' as const })}
          value={typed[entry]}
          onInput={(event) => typePlan(entry, event.currentTarget.value)}
        />
      )}
    </Entry>
  )
}

export function DayEntry({ typed, faults, entry, label, hint }: Props) {
  return (
    <Entry label={label} hint={hint} fault={faults[entry]}>
      {(names) => (
        <input
          {...names}
          type="date"
          name={entry}
          value={typed[entry]}
          onInput={(event) => typePlan(entry, event.currentTarget.value)}
        />
      )}
    </Entry>
  )
}

/** One of a few, with its heading above. */
export function PlanChoice({
  typed,
  entry,
  label,
  options,
}: Omit<Props, 'faults'> & { readonly options: readonly { readonly value: string; readonly words: string }[] }) {
  return (
    <div class="entry">
      <p class="choice-label" aria-hidden="true">
        {label}
      </p>
      <Choice label={label} value={typed[entry]} options={options} onChange={(value) => typePlan(entry, value)} />
    </div>
  )
}
