import { useState } from 'preact/hooks'
import { Chips } from '../../ui/Chips.tsx'
import { Entry as Asked } from '../../ui/Entry.tsx'
import { showDay } from '../show/dates.ts'
import { isCalendarDay } from '../show/days.ts'
import { habits } from '../state/picking.ts'
import { entry, faults, pickDay, tell } from './entry.ts'
import { Shares } from './Shares.tsx'
import { sayShares } from './shareParts.ts'

/** Grades that are offered where the farm has none yet. */
const GRADES = ['first', 'second']
const SHOWN = 8

/** Who picked, how good it was, who has it, and what else there is to say: all of it optional, folded away. */
export function PickDetails() {
  const { picker, grade, note, shares } = entry.value
  const told = [
    picker === null ? null : `by ${picker}`,
    grade,
    shares.length > 0 ? sayShares(shares) : null,
    note.trim() === '' ? null : 'a note',
  ].filter((words) => words !== null)
  const [open, setOpen] = useState(false)
  return (
    <details
      class="pick-details"
      open={open || Boolean(faults.value.shares)}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <span class="pick-told">{told.length > 0 ? told.join('; ') : 'Who picked, who has it, grade, note'}</span>
        <span class="pick-change">{open ? 'less' : 'change'}</span>
      </summary>
      <div class="pick-more">
        <OneOf
          label="Picked by"
          known={habits.value?.pickers ?? []}
          value={picker}
          onTell={(value) => tell({ picker: value })}
        />
        <OneOf
          label="Grade"
          known={[...new Set([...(habits.value?.grades ?? []), ...GRADES])]}
          value={grade}
          onTell={(value) => tell({ grade: value })}
        />
        <Shares />
        <Asked label="Note">
          {(names) => (
            <textarea {...names} rows={2} value={note} onInput={(event) => tell({ note: event.currentTarget.value })} />
          )}
        </Asked>
        <Asked label="Day" hint={`Told of ${showDay(pickDay.value)}.`}>
          {(names) => (
            <input
              {...names}
              type="date"
              value={pickDay.value}
              onChange={(event) => {
                if (isCalendarDay(event.currentTarget.value)) tell({ day: event.currentTarget.value })
              }}
            />
          )}
        </Asked>
      </div>
    </details>
  )
}

interface OneOfProps {
  readonly label: string
  readonly known: readonly string[]
  readonly value: string | null
  readonly onTell: (value: string | null) => void
}

/** One of what was told before, by a tap; or another, typed. Tapped again it is not told. */
export function OneOf({ label, known, value, onTell }: OneOfProps) {
  const [other, setOther] = useState(false)
  const shown = [...new Set([...(value !== null && !other ? [value] : []), ...known])].slice(0, SHOWN)
  const options = [...shown.map((one) => ({ value: `=${one}`, words: one })), { value: 'other', words: 'other' }]
  return (
    <>
      <Chips
        label={label}
        options={options}
        chosen={other ? ['other'] : value === null ? [] : [`=${value}`]}
        onTap={(tapped) => {
          setOther(tapped === 'other' && !other)
          if (tapped === 'other') onTell(null)
          else onTell(`=${value}` === tapped ? null : tapped.slice(1))
        }}
      />
      {other && (
        <Asked label={`${label}: another`}>
          {(names) => (
            <input
              {...names}
              type="text"
              autocomplete="off"
              value={value ?? ''}
              ref={(input) => {
                if (input && document.activeElement === document.body) input.focus()
              }}
              onInput={(event) => onTell(event.currentTarget.value.trim() === '' ? null : event.currentTarget.value)}
              onBlur={() => value !== null && setOther(false)}
            />
          )}
        </Asked>
      )}
    </>
  )
}
