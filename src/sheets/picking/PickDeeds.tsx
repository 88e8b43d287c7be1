import { useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { choose } from '../state/chosen.ts'
import { openToCorrect, REASONS, strikeOut } from './correct.ts'
import { OneOf } from './PickDetails.tsx'

/** What can be done to a pick from its card: put it right, or strike it out, the reason kept. */
export function PickDeeds({ id, title }: { readonly id: string; readonly title: string }) {
  const [striking, setStriking] = useState(false)
  const [reason, setReason] = useState<string | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const strike = async () => {
    if (reason === null || reason.trim() === '') {
      setFault('Say why it is struck out.')
      return
    }
    const reply = await strikeOut(id, reason.trim())
    if (!reply.ok) setFault(reply.fault.detail)
    else void choose(null)
  }
  return (
    <>
      <p class="deeds">
        <button type="button" onClick={async () => setFault(await openToCorrect(id))}>
          Put right
        </button>
        <button type="button" onClick={() => setStriking(true)}>
          Strike out
        </button>
      </p>
      {fault !== null && !striking && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      {striking && (
        <Dialog title={`Strike out ${title}?`} onClose={() => setStriking(false)}>
          <p>
            It leaves every sum, with its shares. What it said and why it was struck out stays written; undo brings it
            back.
          </p>
          <OneOf label="Why" known={REASONS.removed} value={reason} onTell={setReason} />
          {fault !== null && (
            <p class="fault" role="alert">
              {fault}
            </p>
          )}
          <p class="deeds">
            <button type="button" class="first-deed" onClick={() => void strike()}>
              Strike it out
            </button>
          </p>
        </Dialog>
      )}
    </>
  )
}
