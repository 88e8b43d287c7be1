import { useState } from 'preact/hooks'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { lotOnDay, reservedFor } from '../../../geo/stock/lotOnDay.ts'
import { Entry } from '../../ui/Entry.tsx'
import { afterKey, quantityOf } from '../picking/numberPad.ts'
import { OneOf } from '../picking/PickDetails.tsx'
import { showDay } from '../show/dates.ts'
import { isCalendarDay } from '../show/days.ts'
import { showCount } from '../show/figures.ts'
import { doEdits } from '../state/steps.ts'
import { moves, movesByLot } from '../state/stock.ts'
import { on } from '../state/where.ts'
import { CountPad } from './CountPad.tsx'
import {
  correctedMove,
  MOVE_WORDS,
  type MoveKind,
  type MoveTold,
  newMove,
  sayMove,
  shutStockForm,
} from './stockEntry.ts'

const REASONS = ['mistyped', 'counted again', 'wrong day', 'wrong person'] as const
const DECIMALS = /[^\d]/g

interface Props {
  readonly lot: StockLot
  readonly move: MoveKind
  readonly correcting: StockMove | null
}

/** So many plants of a lot reserved, sold, lifted or lost: entered by a few taps, or put right. */
export function MoveEntry({ lot, move, correcting }: Props) {
  const others = (movesByLot.value.get(lot.id) ?? []).filter(({ id }) => id !== correcting?.id)
  const [typed, setTyped] = useState(correcting ? String(correcting.count) : '')
  const [to, setTo] = useState<string | null>(correcting?.to ?? null)
  const [day, setDay] = useState(correcting?.on ?? on.value)
  const [due, setDue] = useState<string | null>(correcting?.due ?? null)
  const [note, setNote] = useState(correcting?.note ?? '')
  const [reason, setReason] = useState<string | null>(null)
  const [fault, setFault] = useState<{ readonly of: 'count' | 'reason'; readonly words: string } | null>(null)
  const [doubt, setDoubt] = useState<string | null>(null)
  const counts = lotOnDay(lot.count, others, day)
  const promised = reservedFor(others.filter((one) => one.on <= day))
  const own = promised.get(to ?? '') ?? 0
  const names = [...new Set([...promised.keys(), ...moves.value.map((one) => one.to ?? '').reverse()])].filter(Boolean)
  const forPerson = move !== 'lost'
  const change = (run: () => void) => {
    run()
    setFault(null)
    setDoubt(null)
  }
  const keep = async () => {
    const count = quantityOf(typed)
    if (count === null) {
      setFault({ of: 'count', words: 'Say how many.' })
      return
    }
    if (correcting && reason === null) {
      setFault({ of: 'reason', words: 'Say why it is put right.' })
      return
    }
    const over = move === 'reserved' ? count - counts.free : move === 'sold' ? count - counts.free - own : 0
    if (over > 0 && doubt === null && count <= lot.count) {
      setDoubt(
        `Only ${showCount(counts.free + (move === 'sold' ? own : 0))} are free on ${showDay(day)}: ${showCount(counts.left)} are left, ${showCount(counts.reserved)} of them reserved.`,
      )
      return
    }
    const told: MoveTold = {
      on: day,
      move,
      count,
      to: forPerson ? to?.trim() || null : null,
      due,
      note: note.trim() || null,
    }
    const reply = correcting
      ? await doEdits(
          `Put right: ${sayMove(correcting, lot)}`,
          correctedMove(correcting, told, { on: on.value, reason: reason!.trim(), lot }),
        )
      : await doEdits(sayMove(told, lot), newMove(lot, told))
    if (reply.ok) void shutStockForm(lot.id)
    else setFault({ of: 'count', words: reply.fault.detail })
  }
  const { deed, done } = MOVE_WORDS[move]
  return (
    <form
      class="pick-entry move-entry"
      aria-label={correcting ? 'Put a move right' : `${deed} plants`}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      <div>
        <h2>
          {correcting ? 'Put right: ' : ''}
          {deed} {lot.kind}
        </h2>
        <p class="card-subtitle">
          On {showDay(day)}: {showCount(counts.left)} left, {showCount(counts.reserved)} of them reserved,{' '}
          {showCount(counts.standing)} in the ground
        </p>
      </div>
      <div class="how-much">
        <input
          type="text"
          class="how-many"
          inputMode="none"
          autocomplete="off"
          aria-label="How many"
          placeholder="0"
          aria-invalid={fault?.of === 'count'}
          value={typed}
          onInput={(event) => {
            const digits = event.currentTarget.value.replace(DECIMALS, '').slice(0, 7)
            event.currentTarget.value = digits
            change(() => setTyped(digits))
          }}
        />
        <div class="how-heavy">
          {fault?.of === 'count' || doubt !== null ? (
            <p class="fault" role="alert">
              {fault?.of === 'count' ? fault.words : doubt}
            </p>
          ) : (
            <p class="how-unit">plants {done}</p>
          )}
        </div>
        <button
          type="button"
          class="take-back"
          disabled={typed === ''}
          aria-label="Take the last digit away"
          onClick={() => change(() => setTyped(afterKey(typed, '⌫')))}
        >
          ⌫
        </button>
      </div>
      <CountPad typed={typed} onTyped={(next) => change(() => setTyped(next))} offers={offersOf(move, counts, own)} />
      {forPerson && (
        <OneOf
          label={move === 'reserved' ? 'For whom' : 'To whom'}
          known={names}
          value={to}
          onTell={(value) => change(() => setTo(value))}
        />
      )}
      <details class="more">
        <summary>
          {day === on.value ? 'Day, day wanted, note' : `On ${showDay(day)}`}
          {due === null ? '' : `, wanted ${showDay(due)}`}
        </summary>
        <Entry label="Day">
          {(labels) => (
            <input
              {...labels}
              type="date"
              value={day}
              onChange={({ currentTarget: { value } }) => {
                if (isCalendarDay(value)) change(() => setDay(value))
              }}
            />
          )}
        </Entry>
        {(move === 'reserved' || move === 'sold') && (
          <Entry label="Wanted on" hint="The lifting list is by this day.">
            {(labels) => (
              <input
                {...labels}
                type="date"
                value={due ?? ''}
                onChange={({ currentTarget: { value } }) => change(() => setDue(isCalendarDay(value) ? value : null))}
              />
            )}
          </Entry>
        )}
        <Entry label="Note">
          {(labels) => (
            <textarea {...labels} rows={2} value={note} onInput={(event) => setNote(event.currentTarget.value)} />
          )}
        </Entry>
      </details>
      {correcting && (
        <div class="pick-reason">
          <OneOf
            label="Why it is put right"
            known={REASONS}
            value={reason}
            onTell={(value) => change(() => setReason(value))}
          />
          {fault?.of === 'reason' && (
            <p class="fault" role="alert">
              {fault.words}
            </p>
          )}
        </div>
      )}
      <div class="pick-deeds">
        <button type="button" onClick={() => void shutStockForm(lot.id)}>
          {correcting ? 'Leave it as it was' : 'Back'}
        </button>
        <button type="submit" class="first-deed">
          {doubt !== null ? 'Keep it all the same' : correcting ? 'Keep it so' : `Keep: ${done}`}
        </button>
      </div>
    </form>
  )
}

/** Counts that a move of this kind likely means, none of nothing. */
function offersOf(move: MoveKind, counts: ReturnType<typeof lotOnDay>, own: number) {
  const offers =
    move === 'lifted'
      ? [
          { words: `all to lift: ${showCount(counts.toLift)}`, count: counts.toLift },
          { words: `all standing: ${showCount(counts.standing)}`, count: counts.standing },
        ]
      : move === 'lost'
        ? [{ words: `all left: ${showCount(counts.left)}`, count: counts.left }]
        : [
            ...(move === 'sold' ? [{ words: `reserved: ${showCount(own)}`, count: own }] : []),
            { words: `all free: ${showCount(counts.free)}`, count: counts.free },
          ]
  return offers.filter(({ count }, i) => count > 0 && offers.findIndex((one) => one.count === count) === i)
}
