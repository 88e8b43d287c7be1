import { LengthEntry, PlanChoice, TypedEntry } from './PlanEntries.tsx'
import { type PlanEntry, type PlanFaults, type PlanTyped, typePlan } from './planTyped.ts'

interface Props {
  readonly typed: PlanTyped
  readonly faults: PlanFaults
  /** The sides by compass. */
  readonly sides: { readonly left: string; readonly middle: string; readonly right: string }
  /** Beds may be laid without rows. */
  readonly mayBeNone: boolean
}

/** How rows lie in a bed: at which sides, how many, or how far apart; and how far from its edges and ends. */
export function RowEntries({ typed, faults, sides, mayBeNone }: Props) {
  const said = { typed, faults }
  const ticks: readonly (readonly [PlanEntry, string])[] = [
    ['rowLeft', sides.left],
    ['rowMiddle', sides.middle],
    ['rowRight', sides.right],
  ]
  return (
    <>
      <PlanChoice
        {...said}
        entry="rowsBy"
        label="Rows in each bed"
        options={[
          ...(mayBeNone ? [{ value: 'none', words: 'None' }] : []),
          { value: 'sides', words: 'By side' },
          { value: 'count', words: 'By number' },
          { value: 'spacing', words: 'By spacing' },
        ]}
      />
      {typed.rowsBy === 'sides' && (
        <fieldset class="ticks">
          <legend class="unseen">Sides</legend>
          {ticks.map(([entry, words]) => (
            <label key={entry} class="tick">
              <input
                type="checkbox"
                checked={typed[entry] === 'yes'}
                onChange={(event) => typePlan(entry, event.currentTarget.checked ? 'yes' : '')}
              />
              {words}
            </label>
          ))}
          {faults.rowMiddle && (
            <p class="fault" role="alert">
              {faults.rowMiddle}
            </p>
          )}
        </fieldset>
      )}
      {typed.rowsBy !== 'none' && (
        <div class="pair">
          {typed.rowsBy === 'count' && <TypedEntry {...said} entry="rowCount" label="Rows in a bed" />}
          {typed.rowsBy === 'spacing' && <LengthEntry {...said} entry="rowSpacing" label="Row to row" />}
          <LengthEntry {...said} entry="rowEdge" label="From the edges" />
          <LengthEntry {...said} entry="rowEnd" label="From the ends" />
          {typed.rowsBy !== 'sides' && (
            <TypedEntry
              {...said}
              plain
              entry="rowJoin"
              label="Between bed and number"
              hint="B4 and “-” make B4-1, B4-2"
            />
          )}
        </div>
      )}
    </>
  )
}
