import { useEffect, useState } from 'preact/hooks'
import type { SupportWork } from '../../../geo/model/supports.ts'
import { Chips } from '../../ui/Chips.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { readNumber } from '../ground/formValues.ts'
import { showDay } from '../show/dates.ts'
import { showNumber } from '../show/figures.ts'
import { ask } from '../state/door.ts'
import { newId } from '../state/newId.ts'
import { doEdits, removeRecord } from '../state/steps.ts'
import { supportsStale } from '../state/supports.ts'
import { on } from '../state/where.ts'

type Work = SupportWork['work']
const WORKS: readonly Work[] = ['put up', 'tend', 'take down']
const USUAL_MINUTES = [15, 30, 45, 60, 90, 120]

/** On the card of a run of any day: what work on it took, noted by taps, and what was noted. */
export function TimedOnCard({ id, standing }: { readonly id: string; readonly standing: boolean }) {
  const [work, setWork] = useState<Work>(standing ? 'tend' : 'take down')
  const [minutes, setMinutes] = useState('')
  const [day, setDay] = useState(on.value)
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const [noted, setNoted] = useState<readonly SupportWork[]>([])
  const stale = supportsStale.value
  useEffect(() => {
    let gone = false
    void ask('listRecords', { kind: 'support_work' }).then((reply) => {
      if (gone || !reply.ok) return
      const own = (reply.value as unknown as readonly SupportWork[]).filter(({ support }) => support === id)
      setNoted([...own].sort((a, b) => (a.on < b.on ? 1 : -1)))
    })
    return () => {
      gone = true
    }
  }, [id, stale])

  const note = async () => {
    const number = readNumber(minutes)
    const wrong = {
      ...(number === null || number <= 0
        ? { minutes: minutes.trim() === '' ? 'How many minutes?' : `“${minutes}” is not a number of minutes.` }
        : {}),
      ...(day === '' ? { on: 'On which day?' } : {}),
    }
    setFaults(wrong)
    if (number === null || Object.keys(wrong).length > 0) return
    const record = { id: newId(), extra: {}, support: id, on: day, work, minutes: number, note: null }
    const reply = await doEdits(`${minutesWords(number)} to ${work}`, [{ do: 'add', kind: 'support_work', record }])
    if (reply.ok) setMinutes('')
    else setFaults({ [reply.fault.field ?? 'minutes']: reply.fault.detail })
  }
  return (
    <details class="more timed" open={noted.length > 0}>
      <summary>Time that it took</summary>
      {noted.length > 0 && (
        <ul class="in-store">
          {noted.map((one) => (
            <li key={one.id}>
              <span>
                {one.work}, {showDay(one.on)}: {minutesWords(one.minutes)}
              </span>
              <button
                type="button"
                class="quiet"
                onClick={() =>
                  void removeRecord('support_work', one.id, `Strike out ${minutesWords(one.minutes)}`).then((reply) =>
                    setFaults(reply.ok ? {} : { minutes: reply.fault.detail }),
                  )
                }
              >
                Strike out
                <span class="unseen">
                  {' '}
                  {one.work}, {showDay(one.on)}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void note()
        }}
      >
        <Chips
          label="Work"
          options={WORKS.map((value) => ({ value, words: value }))}
          chosen={[work]}
          onTap={(value) => setWork(value as Work)}
        />
        <Chips
          label="Minutes"
          options={USUAL_MINUTES.map((value) => ({ value: String(value), words: showNumber(value, 0) }))}
          chosen={[minutes]}
          onTap={setMinutes}
        />
        <NumberEntry
          label="Or other minutes"
          hint="Of all who worked, added up."
          fault={faults.minutes}
          value={minutes}
          onType={setMinutes}
        />
        <Entry label="On" fault={faults.on}>
          {(names) => (
            <input {...names} type="date" value={day} onInput={(event) => setDay(event.currentTarget.value)} />
          )}
        </Entry>
        <p class="deeds">
          <button type="submit" class="first-deed">
            Note the time
          </button>
        </p>
      </form>
    </details>
  )
}

const minutesWords = (minutes: number) => `${showNumber(minutes, 0)} min`
