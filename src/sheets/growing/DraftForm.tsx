import type { BedHistory } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { lengthUnit } from '../ground/formFields.ts'
import { lengthFigure, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { change, laneOf, putInLane } from '../state/settingOut.ts'
import { type Draft, type DraftFaults, spacingUnit, spanOf } from './draft.ts'
import { StoodBefore } from './StoodBefore.tsx'
import { VarietyChoice } from './VarietyChoice.tsx'

interface Props {
  readonly draft: Draft
  readonly history: BedHistory
  readonly faults: DraftFaults
  readonly several: boolean
  readonly onDrop: () => void
}

/** What is asked of one planting. Spacing and plants each reckon the other. */
export function DraftForm({ draft, history, faults, several, onDrop }: Props) {
  const lane = laneOf(history, draft.row)
  const span = spanOf(draft, lane, units.value)
  const typed = (name: 'from' | 'to' | 'spacing' | 'plants', label: string, also: Partial<Draft> = {}) => (
    <NumberEntry
      label={label}
      fault={faults[name]}
      name={name}
      value={draft[name]}
      onType={(text) => change({ [name]: text, ...also })}
    />
  )
  const day = (name: 'setOut' | 'cleared', label: string) => (
    <Entry label={label} fault={faults[name]}>
      {(names) => (
        <input
          {...names}
          name={name}
          type="date"
          value={draft[name]}
          onInput={(event) => change({ [name]: event.currentTarget.value })}
        />
      )}
    </Entry>
  )
  return (
    <fieldset class="draft">
      <legend class="unseen">The planting in hand</legend>
      <VarietyChoice draft={draft} fault={faults.variety} />
      <Entry label="Row" fault={faults.row}>
        {(names) => (
          <select
            {...names}
            name="row"
            value={draft.row ?? ''}
            onChange={(event) => {
              const to = laneOf(history, event.currentTarget.value || null)
              if (to) putInLane(to)
            }}
          >
            {history.lanes.map(({ row, name, lengthM }) => (
              <option key={row ?? ''} value={row ?? ''}>
                {name}, {told(lengthFigure(lengthM, units.value))}
              </option>
            ))}
          </select>
        )}
      </Entry>
      <div class="pair">
        {typed('from', `From, ${lengthUnit(units.value)}`)}
        {typed('to', `To, ${lengthUnit(units.value)}`)}
      </div>
      <p class="stretch-line">
        {span && span[1] > span[0] && <span>{told(lengthFigure(span[1] - span[0], units.value))} of row</span>}
        {lane && (
          <button type="button" class="quiet" onClick={() => putInLane(lane)}>
            Whole row
          </button>
        )}
      </p>
      <div class="pair">
        {typed('spacing', `Spacing, ${spacingUnit(units.value)}`, { follows: 'plants' })}
        {typed('plants', 'Plants', { follows: 'spacing' })}
      </div>
      <div class="pair">
        {day('setOut', 'Set out on')}
        {day('cleared', 'Cleared on')}
      </div>
      {lane && span && (
        <StoodBefore history={history} lane={lane} span={span} before={draft.setOut} without={draft.id} />
      )}
      {several && (
        <button type="button" class="quiet" onClick={onDrop}>
          Leave this one out
        </button>
      )}
    </fieldset>
  )
}
