import { useState } from 'preact/hooks'
import type { Card } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { choose, chosen } from '../state/chosen.ts'
import { farmMap } from '../state/mapHandle.ts'
import { startNoting } from '../state/noting.ts'
import { removeRecord } from '../state/steps.ts'

/** What can be done to something noted: find it, put it right, strike it out. */
export function NotedDeeds({ card }: { readonly card: Card }) {
  const [striking, setStriking] = useState(false)
  const [fault, setFault] = useState<string | null>(null)
  const of = card.kind === 'dressings' ? 'dressings' : 'observations'
  const bed = typeof card.record.bed === 'string' ? card.record.bed : null
  const strike = async () => {
    const reply = await removeRecord(card.kind, card.id, `Strike out: ${card.title}`)
    if (!reply.ok) setFault(reply.fault.detail)
    else void choose(null)
  }
  return (
    <>
      <p class="deeds">
        <button
          type="button"
          onClick={() => farmMap.value?.fitTo(bed === null ? chosen.value : { kind: 'beds', id: bed })}
        >
          Find<span class="unseen"> on the map</span>
        </button>
        <button type="button" onClick={() => startNoting({ of, bed, at: null, correcting: card.record })}>
          Put right
        </button>
        <button type="button" onClick={() => setStriking(true)}>
          Strike out
        </button>
      </p>
      {striking && (
        <Dialog title={`Strike out ${card.title}?`} onClose={() => setStriking(false)}>
          <p>It leaves the map and the bed’s history. Undo brings it back.</p>
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
