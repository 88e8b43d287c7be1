import { useState } from 'preact/hooks'
import { Choice } from '../../ui/Choice.tsx'
import { season } from '../state/where.ts'
import { NextByMove } from './NextByMove.tsx'
import { NextByRotation } from './NextByRotation.tsx'

const MOVES = [
  { value: 'same place', words: 'Same place' },
  { value: 'next side', words: 'Next side' },
  { value: 'next bed', words: 'Next bed' },
  { value: 'rotation', words: 'Rotation' },
] as const
type Way = (typeof MOVES)[number]['value']

/** Carries a season's plan over: to the next, every planting where it stood or moved on, or over years by a rotation of the whole farm. */
export function NextYear() {
  const [way, setWay] = useState<Way>('same place')
  const [kept, setKept] = useState<string | null>(null)
  const from = season.value
  return (
    <section aria-label="Next year" class="next-year">
      <h2>{way === 'rotation' ? `The plan of ${from}, carried on` : `The plan of ${from}, for ${from + 1}`}</h2>
      {kept !== null && <p role="status">{kept} Undo takes all of it back.</p>}
      <Choice label="Where to" options={MOVES} value={way} onChange={setWay} />
      {way === 'rotation' ? <NextByRotation kept={setKept} /> : <NextByMove key={way} to={way} kept={setKept} />}
    </section>
  )
}
