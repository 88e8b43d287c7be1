import { useSignalEffect } from '@preact/signals'
import { Figure } from '../../ui/Figure.tsx'
import { showDay } from '../show/dates.ts'
import { massFigure, showCount } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { askPicking, picking, pickingFault, pickingStale } from '../state/picking.ts'
import { on, season } from '../state/where.ts'
import { DueNext } from './DueNext.tsx'
import { NotebookButton } from './NotebookButton.tsx'
import { PickList } from './PickList.tsx'
import { SeasonSoFar } from './SeasonSoFar.tsx'
import { WhoHadIt } from './WhoHadIt.tsx'

/** The Picking sheet's table: what is due next, the season so far, who had it, and the latest picks. */
export function PickingPanel() {
  useSignalEffect(() => {
    pickingStale.value
    void askPicking({ season: season.value, on: on.value })
  })
  const told = picking.value
  if (pickingFault.value)
    return (
      <p class="fault" role="alert">
        {pickingFault.value.detail}
      </p>
    )
  if (!told) return null
  const kg = told.people.reduce((sum, person) => sum + person.kg, 0)
  const picks = told.people.reduce((sum, person) => sum + person.picks, 0)
  return (
    <>
      {picks === 0 ? (
        <p class="first-steps">
          <strong>
            No pick is recorded from {showDay(told.from)} to {showDay(told.to)}.
          </strong>{' '}
          Enter one beside the map: tap where, tap how much, keep it. An old notebook can be brought in below.
        </p>
      ) : (
        <Figure
          {...massFigure(kg, units.value)}
          from="Each pick’s quantity times the weight of its container for that crop, as kept with the pick."
        >
          picked from {showDay(told.from)} to {showDay(told.to)}, in {showCount(picks)} {picks === 1 ? 'pick' : 'picks'}
          {told.unweighed > 0 && `; ${showCount(told.unweighed)} more have no weight and count in no figure`}
        </Figure>
      )}
      <DueNext rhythm={told.rhythm} />
      {picks > 0 && (
        <>
          <SeasonSoFar told={told} />
          <WhoHadIt lines={told.forWhom} />
          <PickList picks={told.picks} />
        </>
      )}
      <NotebookButton />
    </>
  )
}
