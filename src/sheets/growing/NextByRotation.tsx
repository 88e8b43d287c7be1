import { useEffect, useState } from 'preact/hooks'
import type { Laid } from '../../desk/door.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { newId } from '../state/newId.ts'
import {
  forgetRotation,
  layRotation,
  readRotation,
  reckonRotation,
  rotating,
  rotation,
  rotationFault,
  rotationFaults,
  rotationReading,
  stopRotating,
} from '../state/rotation.ts'
import { season } from '../state/where.ts'
import { type Carried, CarriedLines } from './CarriedLines.tsx'
import { RotationAsked } from './RotationAsked.tsx'
import { holdsSomething, RotationTable } from './RotationTable.tsx'

/** What follows what in every bed over some years, reckoned for the whole farm, and offered as plantings to be kept. */
export function NextByRotation({ kept }: { readonly kept: (words: string) => void }) {
  const from = season.value
  useEffect(() => {
    forgetRotation()
    void readRotation()
  }, [from])
  const reading = rotationReading.value
  const answer = rotation.value?.season === from ? rotation.value : null
  return (
    <>
      <p>
        Beds that hold the same families in {from} move on together, so that each family comes back to a bed only after
        its years, sensitive crops stay clear of walnuts as these grow, and what climbs goes where permanent supports
        stand.
      </p>
      {rotationFault.value && (
        <p class="fault" role="alert">
          {rotationFault.value.detail}
        </p>
      )}
      {rotationFaults.value.season && <p class="first-steps">{rotationFaults.value.season}</p>}
      {reading && (
        <form
          aria-label="Rotation"
          noValidate
          onSubmit={(event) => {
            event.preventDefault()
            void reckonRotation()
          }}
        >
          <RotationAsked reading={reading} />
          {rotating.value ? (
            <>
              <Progress doing="Reckoning what follows what" />
              <p>
                <button type="button" onClick={stopRotating}>
                  Stop
                </button>
              </p>
            </>
          ) : (
            <button type="submit" class="first-deed">
              Reckon the rotation
            </button>
          )}
        </form>
      )}
      {answer && reading && (
        <>
          <RotationTable answer={answer} />
          {holdsSomething(answer) && <Kept key={JSON.stringify(answer.beds)} kept={kept} />}
        </>
      )}
    </>
  )
}

/** The plantings that the rotation makes of the season, for its first season or all of them. */
function Kept({ kept }: { readonly kept: (words: string) => void }) {
  const answer = rotation.value!
  const years = answer.seasons
  const [ahead, setAhead] = useState('1')
  const [lines, setLines] = useState<readonly Carried[] | null>(null)
  const seasons = years.slice(0, Number(ahead))
  useEffect(() => {
    let over = false
    setLines(null)
    void layRotation(answer, seasons).then((laid) => {
      if (over || !laid) return
      const inOrder = new Map(answer.beds.map(({ bed }, n) => [bed, n]))
      const place = (line: Laid) => inOrder.get(line.bed) ?? 0
      const sorted = laid.toSorted((a, b) => a.season - b.season || place(a) - place(b))
      setLines(sorted.map((line) => ({ ...line, id: newId() })))
    })
    return () => {
      over = true
    }
  }, [ahead])
  const first = years[0]
  if (first === undefined) return null
  const instead = (rotationReading.value?.planned ?? [])
    .filter((one) => seasons.includes(one.season))
    .map(({ id }) => id)
  const told = seasons.length === 1 ? String(first) : `${first}–${seasons.at(-1)}`
  return (
    <section aria-label="Plantings of the rotation">
      <h3>Plan it</h3>
      <Choice
        label="Seasons to plan"
        options={years.map((year, n) => ({ value: String(n + 1), words: n === 0 ? String(year) : `to ${year}` }))}
        value={ahead}
        onChange={setAhead}
      />
      {lines === null ? (
        <Progress doing="Laying out the plantings" />
      ) : (
        <CarriedLines key={ahead} lines={lines} instead={instead} step={`Plan ${told} by a rotation`} kept={kept} />
      )}
    </section>
  )
}
