import { directionOf } from './compass.ts'
import { PlanChoice, TypedEntry } from './PlanEntries.tsx'
import { type PlanFaults, type PlanTyped, typePlan } from './planTyped.ts'

interface Props {
  readonly typed: PlanTyped
  readonly faults: PlanFaults
  readonly sides: { readonly left: string; readonly right: string }
  /** The first and last of the names as they would be. */
  readonly names: readonly string[]
  readonly taken: readonly string[]
  readonly freeStart: number
}

/** How the beds are named: by a pattern that counts from one side. Names that are taken are told, not changed. */
export function NameEntries({ typed, faults, sides, names, taken, freeStart }: Props) {
  const said = { typed, faults }
  const [left, right] = [directionOf(sides.left), directionOf(sides.right)]
  return (
    <fieldset class="group">
      <legend>Names</legend>
      <div class="pair">
        <TypedEntry {...said} plain entry="prefix" label="Before the number" />
        <TypedEntry {...said} entry="start" label="First number" />
        <TypedEntry {...said} entry="digits" label="Digits at least" />
      </div>
      <PlanChoice
        {...said}
        entry="counting"
        label="Counted"
        options={[
          { value: 'left', words: `${left} to ${right}` },
          { value: 'right', words: `${right} to ${left}` },
        ]}
      />
      {names.length > 0 && <p class="hint">{names.length > 1 ? `${names[0]} to ${names.at(-1)}` : names[0]}</p>}
      {taken.length > 0 && (
        <div class="fault" role="alert">
          <p>
            {listed(taken)} {taken.length === 1 ? 'is a bed’s name' : 'are beds’ names'} on this farm already.
          </p>
          <button type="button" onClick={() => typePlan('start', String(freeStart))}>
            Count from {freeStart}
          </button>
        </div>
      )}
    </fieldset>
  )
}

function listed(names: readonly string[]): string {
  if (names.length <= 3) return names.join(', ')
  return `${names.slice(0, 2).join(', ')} and ${names.length - 2} more`
}
