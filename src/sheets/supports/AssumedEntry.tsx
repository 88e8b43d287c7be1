import { useState } from 'preact/hooks'
import { Chips } from '../../ui/Chips.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { readNumber } from '../ground/formValues.ts'
import { assume, assumed, type MinutesFrom } from '../state/assumed.ts'
import { openFarm } from '../state/farm.ts'
import { seen } from '../state/supports.ts'

interface Props {
  readonly label: string
  readonly hint?: string
  /** As it is shown, in the person's units; empty where nothing is told. */
  readonly value: string
  /** Bounds of what may be typed, in the units shown. */
  readonly least: number
  readonly most: number
  /** Takes what was typed; null where it was emptied, which only some may be. */
  readonly take: (value: number | null) => void
  readonly mayBeEmpty?: boolean
  /** Taken when the entry is left, not at every key: each take is a step of its own. */
  readonly atLast?: boolean
}

/** An assumption that can be seen and changed; what can't be read is told here, and the last good one holds. */
export function AssumedEntry({ label, hint, value, least, most, take, mayBeEmpty = false, atLast = false }: Props) {
  const [typed, setTyped] = useState<string | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const read = (text: string, taken: boolean) => {
    setTyped(text)
    if (text.trim() === '' && mayBeEmpty) {
      setFault(null)
      if (taken) take(null)
      return
    }
    const number = readNumber(text)
    if (number === null) setFault(`“${text}” is not a number.`)
    else if (number < least || number > most) setFault(`From ${least} to ${most.toLocaleString()}.`)
    else {
      setFault(null)
      if (taken) take(number)
    }
  }
  return (
    <Entry label={label} hint={hint} fault={fault}>
      {(names) => (
        <input
          {...names}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={typed ?? value}
          onInput={(event) => read(event.currentTarget.value, !atLast)}
          onBlur={() => {
            if (fault !== null) return
            if (atLast && typed !== null && typed.trim() !== value) read(typed, true)
            setTyped(null)
          }}
        />
      )}
    </Entry>
  )
}

/** What an hour of labour is reckoned at. */
export function LabourEntry() {
  const currency = openFarm.value?.farm.currency ?? null
  return (
    <AssumedEntry
      label={`An hour of labour costs${currency === null ? '' : `, ${currency}`}`}
      value={String(assumed.value.labourPerHour)}
      least={0}
      most={10_000}
      take={(value) => assume({ labourPerHour: value ?? 0 })}
    />
  )
}

/** Whose minutes labour is reckoned with; asked once something was timed. */
export function MinutesChoice() {
  if ((seen.value?.timed.length ?? 0) === 0) return null
  return (
    <Chips
      label="Minutes of work"
      options={[
        { value: 'systems', words: 'as the systems tell' },
        { value: 'records', words: 'as timed here' },
      ]}
      chosen={[assumed.value.minutesFrom]}
      onTap={(value) => assume({ minutesFrom: value as MinutesFrom })}
    />
  )
}
