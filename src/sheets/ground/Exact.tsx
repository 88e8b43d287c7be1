import { useEffect, useRef } from 'preact/hooks'
import { METRES_PER_FOOT, type Units } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { lengthUnit } from './formFields.ts'
import { readNumber } from './formValues.ts'

export type Quantity = 'length' | 'area' | 'degrees'

const unitOf = (of: Quantity, to: Units) =>
  of === 'degrees' ? '°' : of === 'area' ? `${lengthUnit(to)}²` : lengthUnit(to)
const perUnit = (of: Quantity, to: Units) =>
  of === 'degrees' || to === 'metric' ? 1 : of === 'area' ? METRES_PER_FOOT ** 2 : METRES_PER_FOOT

interface Props {
  readonly label: string
  readonly of: Quantity
  /** Whatever stands here empties the entry when it changes: what was typed has been used. */
  readonly until?: unknown
  readonly start?: number
  readonly least?: number
  readonly take: (value: number | null) => void
  readonly onEnter?: () => void
}

/** An exact quantity to hold to, typed in the person's unit and told in SI; empty, or what is no number, lets go. */
export function Exact({ label, of, until, start, least = 0, take, onEnter }: Props) {
  const input = useRef<HTMLInputElement>(null)
  const to = units.value
  useEffect(() => {
    if (input.current && start === undefined) input.current.value = ''
  }, [until])
  return (
    <label>
      {label}, {unitOf(of, to)}
      <input
        ref={input}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        {...(start !== undefined && { defaultValue: String(Number((start / perUnit(of, to)).toFixed(3))) })}
        onInput={(event) => {
          const typed = readNumber(event.currentTarget.value)
          take(typed !== null && (typed > least || of === 'degrees') ? typed * perUnit(of, to) : null)
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || !onEnter) return
          event.preventDefault()
          onEnter()
        }}
      />
    </label>
  )
}
