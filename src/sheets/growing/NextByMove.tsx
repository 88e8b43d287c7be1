import { useEffect, useState } from 'preact/hooks'
import type { DeskFault, MoveOn } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { readNumber } from '../ground/formValues.ts'
import { ask } from '../state/door.ts'
import { newId } from '../state/newId.ts'
import { plantings } from '../state/plantings.ts'
import { season } from '../state/where.ts'
import { type Carried, CarriedLines } from './CarriedLines.tsx'

/** Every planting of the season a year later, where it stood, or so many sides or beds on. */
export function NextByMove({ to, kept }: { readonly to: MoveOn['to']; readonly kept: (words: string) => void }) {
  const [by, setBy] = useState('1')
  const [lines, setLines] = useState<readonly Carried[] | null>(null)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const from = season.value
  const steps = readNumber(by)
  const wrong = steps === null || !Number.isInteger(steps) || steps < 1 || steps > 999
  const known = plantings.value

  useEffect(() => {
    let over = false
    setFault(null)
    if (wrong) {
      setLines(null)
      return
    }
    void ask('copySeason', { season: from, to, by: steps }).then((reply) => {
      if (over) return
      if (reply.ok) setLines(reply.value.map((line) => ({ ...line, id: newId(), season: from + 1 })))
      else setFault(reply.fault)
    })
    return () => {
      over = true
    }
  }, [from, to, steps, known])

  return (
    <>
      <p>Every planting that grows in {from}, a year later to the day.</p>
      {to !== 'same place' && (
        <Entry
          label={to === 'next bed' ? 'Beds to move on by, in its field' : 'Sides to move on by, in its bed'}
          hint="After the last comes the first."
          fault={wrong ? 'A whole number from 1 to 999.' : null}
        >
          {(names) => (
            <input
              {...names}
              type="text"
              inputMode="numeric"
              value={by}
              onInput={(event) => setBy(event.currentTarget.value)}
            />
          )}
        </Entry>
      )}
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
      {lines?.length === 0 && <p class="first-steps">Nothing is recorded as growing in {from}.</p>}
      {lines !== null && lines.length > 0 && (
        <CarriedLines lines={lines} instead={[]} step={`Copy the plan of ${from} to ${from + 1}`} kept={kept} />
      )}
    </>
  )
}
