import { history } from '../state/farm.ts'
import { redo, stepFault, undo } from '../state/steps.ts'

/** Undo and redo, each with the name of the step that it would take back or do again. */
export function Steps() {
  const { undo: back, redo: again } = history.value
  return (
    <section class="steps" aria-label="Undo and redo">
      <button type="button" disabled={back === null} onClick={undo} title="Ctrl + Z">
        <span class="step-deed">Undo</span>
        <span class="step-name">{back}</span>
      </button>
      <button type="button" disabled={again === null} onClick={redo} title="Ctrl + Shift + Z">
        <span class="step-deed">Redo</span>
        <span class="step-name">{again}</span>
      </button>
      {stepFault.value && (
        <p class="fault" role="alert">
          {stepFault.value.detail}
        </p>
      )}
    </section>
  )
}
