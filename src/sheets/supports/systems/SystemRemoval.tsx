import { useEffect, useState } from 'preact/hooks'
import { askGoesToo } from '../../ground/askGoesToo.ts'
import { removeRecord } from '../../state/steps.ts'
import type { KnownSystem } from './draft.ts'

/** Asked before a system is removed: what uses it goes with it. */
export function SystemRemoval({
  known: { system },
  onDone,
}: {
  readonly known: KnownSystem
  readonly onDone: () => void
}) {
  const [too, setToo] = useState<readonly string[] | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  useEffect(() => {
    void askGoesToo([{ kind: 'systems', id: system.id }]).then(setToo)
  }, [system.id])
  const remove = async () => {
    const reply = await removeRecord('systems', system.id, `Remove ${system.name}`)
    if (reply.ok) onDone()
    else setFault(reply.fault.detail)
  }
  return (
    <>
      <p>
        <strong>Remove {system.name}?</strong>
      </p>
      {too === null ? (
        <p>Counting what uses it</p>
      ) : too.length === 0 ? (
        <p>Nothing uses it.</p>
      ) : (
        <>
          <p>With it go, in every season:</p>
          <ul>
            {too.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
      <p>Undo brings all of it back as it was.</p>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      <p class="deeds">
        <button type="button" class="first-deed" disabled={too === null} onClick={() => void remove()}>
          Remove
        </button>
        <button type="button" onClick={onDone}>
          Back
        </button>
      </p>
    </>
  )
}
