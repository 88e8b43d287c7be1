import { Dialog } from '../../ui/Dialog.tsx'
import { lostWhy, openFarm, phase } from '../state/farm.ts'
import { chooseFarm, openKept } from '../state/opening.ts'

/** Said when the farm is no longer this page's: another tab took it over, or the engine stopped. */
export function Lost() {
  if (phase.value !== 'lost') return null
  const { entry } = openFarm.value!
  return (
    <Dialog title={`${entry.name} is no longer open here`} onClose={() => void chooseFarm()}>
      <p>{lostWhy.value}</p>
      <p>Every finished edit is kept. Opened here again, the farm is closed where it is open now.</p>
      <p class="deeds">
        <button type="button" class="first-deed" onClick={() => void openKept(entry, true)}>
          Take over here
        </button>
      </p>
    </Dialog>
  )
}
