import { Progress } from '../../ui/Progress.tsx'
import { openingWhat, progress, stopOpening } from '../state/farm.ts'

/** The same paper, name and bar that the page came with, now telling truly how far it is. */
export function Opening() {
  const told = progress.value
  const what = openingWhat.value === '' ? 'Opening' : `Opening ${openingWhat.value}`
  return (
    <main class="first">
      <h1>Selion</h1>
      <p>The plan of a small mixed farm: what stands where, what it yields, and where supports should stand.</p>
      {told ? <Progress doing={`${what}: ${told.doing}`} done={told.done} of={told.of} /> : <Progress doing={what} />}
      {stopOpening.value && (
        <p class="deeds">
          <button type="button" onClick={stopOpening.value}>
            Stop
          </button>
        </p>
      )}
    </main>
  )
}
