import { signal } from '@preact/signals'
import type { Answer } from '../../desk/door.ts'
import { Progress } from '../../ui/Progress.tsx'
import { showDay } from '../show/dates.ts'
import { newId } from '../state/newId.ts'
import { doEdits } from '../state/steps.ts'
import { on } from '../state/where.ts'
import { yieldMoreFault, yieldNear } from '../state/yieldMore.ts'
import { printQuestions } from './printQuestions.ts'

type Question = Answer<'yieldNear'>['questions'][number]

const fault = signal<{ readonly of: string; readonly detail: string } | null>(null)

/** For each zone, what is worth a look in the field: to be printed, or noted as seen. */
export function ToLookAt() {
  const all = yieldNear.value
  if (!all) return yieldMoreFault.value ? null : <Progress doing="Looking at what lies near every zone" />
  if (all.questions.length === 0)
    return (
      <p class="first-steps">
        <strong>No low-yield zone is sure enough to ask about.</strong> Questions stand here when one is.
      </p>
    )
  const zones = [...new Set(all.questions.map(({ zone }) => zone))]
  return (
    <section aria-label="To look at in the field">
      <h2>To look at in the field</h2>
      <p>
        <button type="button" onClick={() => printQuestions(all.questions)}>
          Print the list
        </button>
      </p>
      {zones.map((zone) => (
        <section key={zone} aria-label={zone}>
          <h3>{zone.charAt(0).toUpperCase() + zone.slice(1)}</h3>
          <ul class="notes">
            {all.questions
              .filter((one) => one.zone === zone)
              .map((one) => (
                <li key={one.id}>
                  {one.question} <span class="hint">{one.reason}</span>{' '}
                  {one.notedOn !== null ? (
                    <span>
                      Noted “{one.kind}”, {showDay(one.notedOn)}.
                    </span>
                  ) : (
                    <button type="button" class="quiet" onClick={() => void note(one)}>
                      Yes: note “{one.kind}”
                    </button>
                  )}
                  {fault.value?.of === one.id && (
                    <span class="fault" role="alert">
                      {fault.value.detail}
                    </span>
                  )}
                </li>
              ))}
          </ul>
        </section>
      ))}
    </section>
  )
}

async function note({ id, kind, at, question }: Question): Promise<void> {
  const record = {
    id: newId(),
    on: on.value,
    kind,
    severity: null,
    note: `Looked at: ${question}`,
    extra: {},
    geom: { type: 'Point' as const, coordinates: [...at] },
  }
  const reply = await doEdits(`Note: ${kind}`, [{ do: 'add', kind: 'observations', record }])
  fault.value = reply.ok ? null : { of: id, detail: reply.fault.detail }
}
