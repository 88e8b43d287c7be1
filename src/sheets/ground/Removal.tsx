import { useEffect, useState } from 'preact/hooks'
import type { Card } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { LongStep } from '../frame/LongStep.tsx'
import { choose } from '../state/chosen.ts'
import { removeRecord } from '../state/steps.ts'
import { askGoesToo } from './askGoesToo.ts'

interface Props {
  readonly card: Card
  readonly word: string
  readonly onClose: () => void
}

/** Asked before a record is removed: what goes with it. It can be undone as one step. */
export function Removal({ card, word, onClose }: Props) {
  const [too, setToo] = useState<readonly string[] | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const [removing, setRemoving] = useState(false)
  useEffect(() => {
    void askGoesToo([card]).then(setToo)
  }, [card])
  const remove = async () => {
    setRemoving(true)
    const reply = await removeRecord(card.kind, card.id, `Remove ${word} ${card.title}`)
    setRemoving(false)
    if (!reply.ok) {
      setFault(reply.fault.detail)
      return
    }
    onClose()
    void choose(null)
  }
  return (
    <Dialog title={`Remove ${card.title}?`} onClose={onClose}>
      {too === null && <p>Counting what stands on it</p>}
      {too?.length === 0 && <p>Nothing else goes with it.</p>}
      {too !== null && too.length > 0 && (
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
      <LongStep />
      <p class="deeds">
        <button type="button" class="first-deed" disabled={too === null || removing} onClick={() => void remove()}>
          Remove
        </button>
      </p>
    </Dialog>
  )
}
