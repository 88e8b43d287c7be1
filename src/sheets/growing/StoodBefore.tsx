import { stoodBefore } from '../../../geo/growing/bedHistory.ts'
import type { BedHistory, Lane } from '../../desk/door.ts'
import { showDay } from '../show/dates.ts'

interface Props {
  readonly history: BedHistory
  readonly lane: Lane
  readonly span: readonly [number, number]
  readonly before: string
  readonly without: string
}

/** What stood on a stretch before a day, the latest first. */
export function StoodBefore({ history, lane, span, before, without }: Props) {
  const stood = stoodBefore(history, lane, span, before).filter(({ planting }) => planting !== without)
  if (stood.length === 0) return <p class="hint">Nothing is recorded here before.</p>
  return (
    <details class="stood">
      <summary>What stood here before</summary>
      <ul>
        {stood.map(({ planting, crop, variety, family, setOut, cleared }) => (
          <li key={planting}>
            {crop}, {variety} ({family}), {showDay(setOut)}{' '}
            {cleared === null ? 'and standing still' : `to ${showDay(cleared)}`}
          </li>
        ))}
      </ul>
    </details>
  )
}
