import { Progress } from '../../ui/Progress.tsx'
import { showCount } from '../show/figures.ts'
import { progress } from '../state/farm.ts'
import { longStep } from '../state/longStep.ts'

/** Tells how far a step of thousands of records is, and stops it, as long as that can be done. */
export function LongStep() {
  const step = longStep.value
  if (!step) return null
  const told = progress.value
  const isWritten = told !== null && told.done >= told.of
  return (
    <section class="long-step" aria-label="Being kept">
      <Progress doing={step.label} {...(told && { done: told.done, of: told.of })} />
      <div class="long-step-foot">
        <p>
          {told === null
            ? 'Looking it through'
            : isWritten
              ? 'All of it is written, and is being shown'
              : `${showCount(told.done)} of ${showCount(told.of)} records written`}
        </p>
        {!isWritten && (
          <button type="button" onClick={step.stop}>
            Stop
          </button>
        )}
      </div>
    </section>
  )
}
